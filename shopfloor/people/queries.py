"""What other rooms and the pages read about persons."""

from collections.abc import Iterable

from django.db.models import Prefetch, Q, QuerySet

from shopfloor.people.models import Customer, Person, Role, RoleGrant


def roles_of(person: Person) -> frozenset[Role]:
    """Roles held now: one query, then remembered on the instance, which lives for one request."""
    if "_roles" not in person.__dict__:
        held = open_grants().filter(person=person).values_list("role", flat=True)
        person.__dict__["_roles"] = frozenset(Role(role) for role in held)
    roles: frozenset[Role] = person.__dict__["_roles"]
    return roles


def open_grants() -> QuerySet[RoleGrant]:
    return RoleGrant.objects.filter(ended_at__isnull=True)


def sees_every_customer(person: Person) -> bool:
    """Shop roles and the auditor see every customer's things."""
    return person.is_active and bool(roles_of(person) - {Role.CUSTOMER})


def of_customers_seen_by(person: Person) -> Q:
    """A condition on records with a `customer`: the shop and the auditor see all, the customer role its own only."""
    if sees_every_customer(person):
        return Q()
    return Q(customer__isnull=False, customer=person.customer_id) if acts_for_customer(person) else Q(pk__in=[])


def persons() -> QuerySet[Person]:
    """Everyone, the active first, each with `roles_held`; three queries however many."""
    held = Prefetch("grants", queryset=open_grants().order_by("role"), to_attr="roles_held")
    return Person.objects.select_related("customer").prefetch_related(held).order_by("-is_active", "username")


def grants_of(person: Person) -> QuerySet[RoleGrant]:
    return person.grants.select_related("granted_by", "ended_by").order_by("-granted_at", "-pk")


def customers() -> QuerySet[Customer]:
    active = Prefetch("persons", queryset=Person.objects.filter(is_active=True).order_by("username"), to_attr="acting")
    return Customer.objects.prefetch_related(active).order_by("name")


def active_managers() -> QuerySet[Person]:
    return Person.objects.filter(is_active=True, grants__role=Role.MANAGER, grants__ended_at__isnull=True)


def roles_to_grant(held: Iterable[Role]) -> list[Role]:
    return [role for role in Role if role not in frozenset(held)]


def acts_for_customer(person: Person) -> bool:
    return person.is_active and Role.CUSTOMER in roles_of(person)
