"""What the ledger keeps of persons, customers and grants: numbers in the open, names only as erasable texts."""

from datetime import UTC, datetime

from shopfloor.ledger.append_only import protect
from shopfloor.ledger.records import register_record
from shopfloor.people import events
from shopfloor.people.models import Customer, Person, RoleGrant


def register() -> None:
    register_record(Person, content=_person, private=("username", "name", "certificate_kind", "certificate_number"))
    register_record(Customer, content=_customer, private=("name",))
    register_record(RoleGrant, content=_grant)
    protect(RoleGrant, closes=("ended_by", "ended_at"))
    events.register()


def _person(person: Person) -> dict[str, object]:
    return {
        "customer": _number(person.customer_id),
        "is_active": person.is_active,
        "must_change_password": person.must_change_password,
        "erased_at": _moment(person.erased_at),
    }


def _customer(customer: Customer) -> dict[str, object]:
    return {}


def _grant(grant: RoleGrant) -> dict[str, object]:
    return {
        "person": _number(grant.person_id),
        "role": str(grant.role),
        "granted_by": _number(grant.granted_by_id),
        "granted_at": _moment(grant.granted_at),
        "ended_by": _number(grant.ended_by_id),
        "ended_at": _moment(grant.ended_at),
    }


def _number(key: int | None) -> str | None:
    return None if key is None else str(key)


def _moment(at: datetime | None) -> str | None:
    return at.astimezone(UTC).isoformat() if at else None
