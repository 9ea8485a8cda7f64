"""The board: every engine of a page, where each of its areas stands, since when, and what holds it up."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db.models import F, Q, QuerySet
from django.utils import timezone

from engines.catalogue.data import AREA_STAGES, ENGINE, ENGINE_STAGES
from engines.inspection.models import Discrepancy
from engines.inspection.queries import undecided
from engines.traveler.models import Operation
from engines.vendors.models import OutsideWork
from engines.vendors.queries import out_of
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import visible_visits, with_areas
from shopfloor.people.models import Person

NOT_COMPLETE = Q(signed_at__isnull=True) | Q(hold_point=True, accepted_at__isnull=True)


@dataclass(frozen=True)
class AreaCell:
    area: VisitArea
    days: int
    operations: list[Operation]
    undecided: list[Discrepancy]
    out: list[OutsideWork]

    @property
    def held_by(self) -> str:
        """The first thing that holds it: not decided, out with a vendor, waiting for a second person, to be done."""
        if self.undecided:
            return f"discrepancy {self.undecided[0].number} is not decided"
        if self.out:
            return f"{self.out[0].item} is out with {self.out[0].vendor.name}, due {self.out[0].due_on}"
        waiting = [each for each in self.operations if each.signed_at]
        if waiting:
            return f"“{waiting[0].title}” waits for acceptance"
        return f"“{self.operations[0].title}” is not signed" if self.operations else ""


@dataclass(frozen=True)
class BoardLine:
    visit: Visit
    cells: list[AreaCell]
    late: bool


@dataclass(frozen=True)
class BenchPlan:
    """What lies on one bench."""

    name: str
    cells: list[tuple[Visit, AreaCell]]


def benches_of(lines: list[BoardLine]) -> list[BenchPlan]:
    """The plan of the benches, by name, from lines at hand. A whole engine lies nowhere before its areas can be joined."""
    found: dict[str, list[tuple[Visit, AreaCell]]] = defaultdict(list)
    for line in lines:
        apart = any(cell.area.stage != AREA_STAGES[-1] for cell in line.cells if cell.area.code != ENGINE)
        for cell in line.cells:
            if not (apart and cell.area.code == ENGINE and cell.area.stage == ENGINE_STAGES[0]):
                found[cell.area.bench].append((line.visit, cell))
    return [BenchPlan(name, found[name]) for name in sorted(found)]


def open_visits(person: Person) -> QuerySet[Visit]:
    return with_areas(visible_visits(person).filter(closed_at__isnull=True))


def board_lines(visits: list[Visit], at: datetime) -> list[BoardLine]:
    """Three queries more, however many engines."""
    operations, found, out = _operations(visits), _undecided(visits), _out(visits)
    today = timezone.localdate(at)
    return [
        BoardLine(
            visit=visit,
            cells=[
                AreaCell(
                    area,
                    (at - area.since).days,
                    operations[area.pk],
                    found[visit.pk, area.code],
                    out[visit.engine_id, area.code],
                )
                for area in visit.areas.all()
            ],
            late=visit.promised_on is not None and visit.promised_on < today,
        )
        for visit in visits
    ]


def _operations(visits: list[Visit]) -> dict[UUID, list[Operation]]:
    """Of the stage that each area stands in: those that are not complete."""
    found: dict[UUID, list[Operation]] = defaultdict(list)
    here = Operation.objects.filter(NOT_COMPLETE, area__visit__in=[visit.pk for visit in visits], stage=F("area__stage"))
    for operation in here.order_by("order"):
        found[operation.area_id].append(operation)
    return found


def _undecided(visits: list[Visit]) -> dict[tuple[UUID, str], list[Discrepancy]]:
    found: dict[tuple[UUID, str], list[Discrepancy]] = defaultdict(list)
    for each in undecided().filter(visit__in=[visit.pk for visit in visits]).order_by("number"):
        found[each.visit_id, each.area].append(each)
    return found


def _out(visits: list[Visit]) -> dict[tuple[UUID, str], list[OutsideWork]]:
    """What is out with a vendor, by engine and area, the earliest due first."""
    found: dict[tuple[UUID, str], list[OutsideWork]] = defaultdict(list)
    for each in out_of(visit.engine_id for visit in visits):
        found[each.root_id, each.area].append(each)
    return found
