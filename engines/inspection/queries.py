"""Discrepancies and requests for their pages and lists."""

from django.db.models import Exists, OuterRef, Q, QuerySet

from engines.inspection.models import Answer, Discrepancy, Disposition, Said, Taken, WorkAsked
from engines.inspection.standing import NEW_PART, Kind
from engines.visits.models import Tagged, Visit
from engines.visits.queries import joined_to, visible_visits
from shopfloor.people.models import Person

UNANSWERED = Q(answer__isnull=True, withdrawal__isnull=True)


def discrepancies() -> QuerySet[Discrepancy]:
    joined = Discrepancy.objects.select_related(*joined_to("visit"), "reading__row", "item", "raised_by")
    return joined.defer("visit__pack__content")


def undecided() -> QuerySet[Discrepancy]:
    """Those that nobody has decided about, for lists; the page of an area asks the exact rules.

    A concession with one signature is no decision yet. A reading that was corrected or taken again asks nothing more.
    """
    complete = Disposition.objects.exclude(kind=Kind.CONCESSION, second_at__isnull=True)
    decided = complete.filter(~undone(), discrepancy=OuterRef("pk"))
    again = Taken.objects.filter(
        visit=OuterRef("visit"), row=OuterRef("row"), place=OuterRef("place"), taken_at__gt=OuterRef("reading__taken_at")
    )
    return Discrepancy.objects.filter(~Exists(decided), ~Exists(again)).exclude(reading__corrected_by__isnull=False)


def new_parts_awaited() -> QuerySet[Disposition]:
    """Decisions that the part gives way to another one, which is not tagged yet. The newest of a discrepancy counts."""
    later = Disposition.objects.filter(discrepancy=OuterRef("discrepancy"), made_at__gt=OuterRef("made_at"))
    came = Tagged.objects.filter(
        visit=OuterRef("discrepancy__visit"),
        line=OuterRef("line"),
        place=OuterRef("at"),
        item__isnull=False,
        tagged_at__gt=OuterRef("made_at"),
    )
    asked = Disposition.objects.filter(kind__in=NEW_PART, discrepancy__visit__closed_at__isnull=True)
    waits = WorkAsked.objects.filter(UNANSWERED, discrepancy=OuterRef("discrepancy"))
    return asked.filter(~undone(), ~Exists(waits), ~Exists(later), ~Exists(came))


def undone() -> Exists:
    """A condition on a decision: the customer refused the work afterwards."""
    asked_about = Answer.objects.filter(request__discrepancy=OuterRef("discrepancy"))
    return Exists(asked_about.filter(said=Said.REFUSED, answered_at__gte=OuterRef("made_at")))


def requests() -> QuerySet[WorkAsked]:
    joined = ("discrepancy__reading__row", "discrepancy__item", "asked_by", "answer__answered_by", "withdrawal__withdrawn_by")
    return WorkAsked.objects.select_related(*joined_to("visit"), *joined)


def visible_requests(person: Person) -> QuerySet[WorkAsked]:
    """A customer's own, the shop's all; the oldest first."""
    return requests().filter(visit__in=visible_visits(person).order_by().values("pk")).order_by("asked_at", "id")


def unanswered_requests(person: Person) -> QuerySet[WorkAsked]:
    """Those of open visits that wait for the customer."""
    return visible_requests(person).filter(UNANSWERED, visit__closed_at__isnull=True)


def requests_of(visit: Visit) -> QuerySet[WorkAsked]:
    return requests().filter(visit=visit).order_by("number")


def refused_requests(visit: Visit) -> QuerySet[WorkAsked]:
    """Work that the customer refused, in the order of its numbers: what the release prints."""
    return requests_of(visit).filter(answer__said=Said.REFUSED)
