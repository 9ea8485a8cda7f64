"""The sentence that a reader of the ledger sees for each kind of event of this room. Persons are named by number."""

from collections.abc import Callable

from django.urls import reverse

from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.models import Role

ABOUT_A_PERSON = {
    "person.added": "Person {} was added.",
    "person.deactivated": "Person {} was deactivated and can no longer sign in.",
    "person.reactivated": "Person {} was reactivated and can sign in again.",
    "person.erased": "Person {} was erased: the number stays, the name is gone.",
    "person.certificated": "The certificate of person {} was entered anew.",
    "password.reset": "Person {} was given a new first password.",
    "password.changed": "Person {} chose a new password.",
}


def register() -> None:
    for kind, words in ABOUT_A_PERSON.items():
        register_kind(kind, sentence=_filled(words), link=lambda event: _page(event.body["about"][1]))
    register_kind("person.linked", sentence=_linked, link=lambda event: _page(event.body["about"][1]))
    register_kind("role.granted", sentence=_granted, link=lambda event: _page(event.body["content"]["person"]))
    register_kind("role.ended", sentence=_ended, link=lambda event: _page(event.body["content"]["person"]))
    register_kind("customer.added", sentence=_customer_added, link=lambda event: reverse("people:customers"))
    register_kind("sign-in.locked", sentence=_locked, link=lambda event: _page(event.body["facts"]["person"]))


def _page(number: str | None) -> str | None:
    return reverse("people:person", args=[int(number)]) if number else None


def _filled(words: str) -> Callable[[LedgerEvent], str]:
    return lambda event: words.format(event.body["about"][1])


def _linked(event: LedgerEvent) -> str:
    customer = event.body["content"]["customer"]
    acts = f"acts for customer {customer}" if customer else "acts for no customer"
    return f"Person {event.body['about'][1]} now {acts}."


def _granted(event: LedgerEvent) -> str:
    grant = event.body["content"]
    return f"Person {grant['person']} was granted the role {Role(grant['role']).label}."


def _ended(event: LedgerEvent) -> str:
    grant = event.body["content"]
    return f"The role {Role(grant['role']).label} of person {grant['person']} was ended."


def _customer_added(event: LedgerEvent) -> str:
    return f"Customer {event.body['about'][1]} was added."


def _locked(event: LedgerEvent) -> str:
    facts = event.body["facts"]
    whose = f"of person {facts['person']}" if facts["person"] else "that belongs to nobody"
    return f"Sign-in with a name {whose} was refused for a while after {facts['tries']} wrong passwords."
