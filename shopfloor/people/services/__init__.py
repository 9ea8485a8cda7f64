"""The writes of the people room: each is one transaction that ends in its ledger event."""

from shopfloor.people.services.accounts import add_person, deactivate, erase_person, reactivate, set_certificate
from shopfloor.people.services.customers import add_customer, link_to_customer
from shopfloor.people.services.first_manager import add_first_manager
from shopfloor.people.services.passwords import change_own_password, reset_password
from shopfloor.people.services.roles import end_role, grant_role
from shopfloor.people.services.sign_in import confirm_password, sign_in

__all__ = [
    "add_customer",
    "add_first_manager",
    "add_person",
    "change_own_password",
    "confirm_password",
    "deactivate",
    "end_role",
    "erase_person",
    "grant_role",
    "link_to_customer",
    "reactivate",
    "reset_password",
    "set_certificate",
    "sign_in",
]
