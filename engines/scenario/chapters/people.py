"""Who works at Saltmarsh Engine Works, and for whom."""

from dataclasses import dataclass
from datetime import datetime

from engines.scenario.passwords import DEMO_PASSWORD
from engines.scenario.saying import Say
from shopfloor.people.models import Customer, Person, Role
from shopfloor.people.services import (
    add_customer,
    add_first_manager,
    add_person,
    change_own_password,
    link_to_customer,
    reset_password,
)

CUSTOMERS = ("Lowfold Flying Club", "Estuary Survey Air")


@dataclass(frozen=True)
class Account:
    username: str
    name: str
    role: Role


MANAGER = Account("manager", "Shop manager", Role.MANAGER)
CUSTOMER = Account("customer", "Customer", Role.CUSTOMER)
ACCOUNTS = (
    MANAGER,
    Account("mechanic1", "First mechanic", Role.MECHANIC),
    Account("mechanic2", "Second mechanic", Role.MECHANIC),
    Account("inspector", "Inspector", Role.INSPECTOR),
    Account("stores", "Storekeeper", Role.STOREKEEPER),
    CUSTOMER,
    Account("auditor", "Auditor", Role.AUDITOR),
)


def tell(at: datetime, say: Say) -> None:
    manager = _person(MANAGER) or add_first_manager(username=MANAGER.username, name=MANAGER.name, password=DEMO_PASSWORD, at=at)
    for name in CUSTOMERS:
        if not Customer.objects.filter(name=name).exists():
            add_customer(name=name, by=manager, at=at)
    for account in ACCOUNTS[1:]:
        _hire(account, by=manager, at=at)
    customer = Person.objects.get(username=CUSTOMER.username)
    if customer.customer is None:
        link_to_customer(person=customer, customer=Customer.objects.get(name=CUSTOMERS[0]), by=manager, at=at)


def _hire(account: Account, *, by: Person, at: datetime) -> None:
    """As in a real shop: the manager hands out a first password, and its owner changes it."""
    person = _person(account)
    if person is None:
        person, first = add_person(username=account.username, name=account.name, role=account.role, by=by, at=at)
    elif person.must_change_password:
        first = reset_password(person=person, by=by, at=at)
    else:
        return
    person.refresh_from_db()
    change_own_password(current=first, new=DEMO_PASSWORD, by=person, at=at)


def _person(account: Account) -> Person | None:
    return Person.objects.filter(username=account.username).first()
