"""Why the person before a page cannot work or accept there, of those whose role would let them."""

from django.utils.timezone import localdate

from engines.steps.work import Work
from engines.traveler.authority import why_not
from engines.traveler.models import Operation
from engines.traveler.needs import ACCEPTING, need_at
from shopfloor.people.models import Person
from shopfloor.people.permissions import Permission, may


def why_not_working(person: Person, work: Work) -> str:
    """Blank where the person may enter and sign, and where their role says already that they may not."""
    if not may(person, Permission.DO_WORK):
        return ""
    return why_not(person, need_at(work.operation), work.data.model, localdate())


def why_not_accepting(person: Person, operation: Operation, work: Work) -> str:
    """The same for accepting, where there is something to accept that another person signed."""
    waits = operation.hold_point and operation.signed_at and not operation.accepted_at
    if not waits or operation.signed_by_id == person.pk or not may(person, Permission.ACCEPT_WORK):
        return ""
    return why_not(person, ACCEPTING, work.data.model, localdate())
