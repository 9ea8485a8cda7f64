"""What the board and the first pages show, gathered for many engines at once."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Count, Exists, F, OuterRef, Q, QuerySet
from django.utils import timezone

from engines.inspection.models import Discrepancy, Disposition
from engines.traveler.models import Operation
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import visible_visits, with_areas
from shopfloor.people.models import Person

NOT_COMPLETE = Q(signed_at__isnull=True) | Q(hold_point=True, accepted_at__isnull=True)


@dataclass(frozen=True)
class AreaCell:
    area: VisitArea
    days: int
    to_do: int
    to_accept: int
    undecided: int


@dataclass(frozen=True)
class BoardLine:
    visit: Visit
    cells: list[AreaCell]
    late: bool

    @property
    def undecided(self) -> int:
        return sum(cell.undecided for cell in self.cells)


def open_visits(person: Person) -> QuerySet[Visit]:
    return with_areas(visible_visits(person).filter(closed_at__isnull=True))


def board_lines(visits: list[Visit], at: datetime) -> list[BoardLine]:
    """Two queries more, however many engines."""
    areas = [area for visit in visits for area in visit.areas.all()]
    counts = {each["area_id"]: each for each in _counts(areas)}
    undecided = {(each["visit_id"], each["area"]): each["undecided"] for each in _undecided(visits)}
    today = timezone.localdate(at)
    return [
        BoardLine(
            visit=visit,
            cells=[
                _cell(area, counts.get(area.pk, {}), undecided.get((visit.pk, area.code), 0), at) for area in visit.areas.all()
            ],
            late=visit.promised_on is not None and visit.promised_on < today,
        )
        for visit in visits
    ]


def _cell(area: VisitArea, counted: Mapping[str, int], undecided: int, at: datetime) -> AreaCell:
    return AreaCell(area, (at - area.since).days, counted.get("to_do", 0), counted.get("to_accept", 0), undecided)


def _counts(areas: list[VisitArea]) -> Iterable[Mapping[str, Any]]:
    """Per area: operations of its stage that are not signed, and hold points that wait for a second person."""
    here = Operation.objects.filter(area__in=[area.pk for area in areas], stage=F("area__stage")).order_by()
    return here.values("area_id").annotate(
        to_do=Count("id", filter=Q(signed_at__isnull=True)),
        to_accept=Count("id", filter=Q(signed_at__isnull=False, hold_point=True, accepted_at__isnull=True)),
    )


def _undecided(visits: list[Visit]) -> Iterable[Mapping[str, Any]]:
    """Per area: discrepancies that nobody has decided about yet, a concession with one signature among them."""
    decided = Disposition.objects.filter(discrepancy=OuterRef("pk")).exclude(kind="concession", second_at__isnull=True)
    corrected = Q(reading__corrected_by__isnull=False)
    found = Discrepancy.objects.filter(visit__in=[visit.pk for visit in visits]).exclude(corrected).filter(~Exists(decided))
    return found.order_by().values("visit_id", "area").annotate(undecided=Count("id"))
