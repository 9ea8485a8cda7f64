"""Customers, and which persons act for them."""

from datetime import datetime

from django.db import IntegrityError, transaction

from shopfloor.ledger.services import Entry, record
from shopfloor.people.errors import AlreadySo, NameTaken, NotACustomersPerson
from shopfloor.people.models import Customer, Person, Role
from shopfloor.people.queries import open_grants
from shopfloor.people.services.administering import lock_for_change, lock_manager


@transaction.atomic
def add_customer(*, name: str, by: Person, at: datetime) -> Customer:
    lock_manager(by)
    if Customer.objects.filter(name__iexact=name).exists():
        raise NameTaken(name)
    try:
        with transaction.atomic():
            customer = Customer.objects.create(name=name)
    except IntegrityError:
        raise NameTaken(name) from None
    record(Entry(chain="people", kind="customer.added", of=customer, facts={}), by=by.pk, at=at)
    return customer


@transaction.atomic
def link_to_customer(*, person: Person, customer: Customer | None, by: Person, at: datetime) -> None:
    """From now on the person sees this customer's engines and no other; None: no customer's."""
    person = lock_for_change(person, by=by)
    if not open_grants().filter(person=person, role=Role.CUSTOMER).exists():
        raise NotACustomersPerson
    if person.customer == customer:
        raise AlreadySo(f"linked to {customer}" if customer else "linked to no customer")
    person.customer = customer
    person.save(update_fields=["customer"])
    record(Entry(chain="people", kind="person.linked", of=person, facts={}), by=by.pk, at=at)
