"""Discrepancies for their pages and lists."""

from django.db.models import Exists, OuterRef, QuerySet

from engines.inspection.models import Discrepancy, Disposition, Taken
from engines.inspection.standing import NEW_PART, Kind
from engines.visits.models import Tagged
from engines.visits.queries import joined_to


def discrepancies() -> QuerySet[Discrepancy]:
    return Discrepancy.objects.select_related(*joined_to("visit"), "reading__row", "item", "raised_by")


def undecided() -> QuerySet[Discrepancy]:
    """Those that nobody has decided about, for lists; the page of an area asks the exact rules.

    A concession with one signature is no decision yet. A reading that was corrected or taken again asks nothing more.
    """
    decided = Disposition.objects.filter(discrepancy=OuterRef("pk")).exclude(kind=Kind.CONCESSION, second_at__isnull=True)
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
    return asked.filter(~Exists(later), ~Exists(came))
