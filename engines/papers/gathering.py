"""What every paper of a visit begins with."""

from django.db.models import Q

from engines.visits.models import Visit
from engines.visits.queries import received, with_areas
from shopfloor.documents.kinds import Subject
from shopfloor.people.models import Person
from shopfloor.people.queries import sees_every_customer

JOINED = ("engine__item", "engine__model", "customer", "pack__model", "pack__loaded_by", "pack__approved_by", "received_by")


def visit_of(subject: str) -> Visit:
    return with_areas(Visit.objects.select_related(*JOINED)).get(pk=subject)


def heading(visit: Visit) -> dict[str, object]:
    """The facts that stand at the head of each paper."""
    return {"visit": visit, "received": received(visit)}


def describe(subject: str) -> Subject:
    visit = Visit.objects.select_related("engine__item", "engine__model").get(pk=subject)
    return Subject(f"{visit.engine}, visit {visit.number}", visit.customer_id)


def shop_only(person: Person) -> Q:
    """A condition on Document: the shop and its auditor see it, a customer does not."""
    return Q() if sees_every_customer(person) else Q(pk__in=[])
