"""What one shift hands over to the next: what is begun, in whose hands, what does not wait, and which parts are out."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from uuid import UUID

from django.db.models import Count, Exists, F, OuterRef

from engines.benches.queries.board import NOT_COMPLETE
from engines.inspection.facts import Inspection, inspection_of
from engines.inspection.models import Taken
from engines.parts.models import Fitment
from engines.steps.registry import step_of
from engines.steps.work import Work
from engines.traveler.models import Entry, Operation
from engines.visits.models import Tagged, Visit, VisitArea
from engines.visits.route import data_for

WAITS = "Signed. It waits for another authorised person to accept it."


@dataclass(frozen=True)
class Begun:
    """An operation that is not complete, who had it in their hands last and when, and what whoever comes on must know."""

    operation: Operation
    by: str
    at: datetime
    notices: list[str]


@dataclass
class AreaOpen:
    area: VisitArea
    begun: list[Begun] = field(default_factory=list)
    trays: list[tuple[str, int]] = field(default_factory=list)


@dataclass(frozen=True)
class EngineOpen:
    visit: Visit
    areas: list[AreaOpen]


Readings = dict[tuple[UUID, str], tuple[str, datetime]]


def handed_over(visits: list[Visit], at: datetime) -> list[EngineOpen]:
    """Engines with something begun or out, area by area: four queries, however many there are."""
    operations, entries, readings, trays = _operations(visits), _entries(visits), _last_readings(visits), _trays(visits)
    engines = []
    for visit in visits:
        now = inspection_of(visit)
        begun = [_begun(now, each, entries[each.pk], readings, at) for each in operations[visit.pk]]
        areas = [
            AreaOpen(area, [each for each in begun if each and each.operation.area_id == area.pk], trays[visit.pk, area.code])
            for area in visit.areas.all()
        ]
        engines.append(EngineOpen(visit, [area for area in areas if area.begun or area.trays]))
    return [engine for engine in engines if engine.areas]


def _begun(now: Inspection, operation: Operation, entries: list[Entry], readings: Readings, at: datetime) -> Begun | None:
    if operation.signed_by and operation.signed_at:
        return Begun(operation, operation.signed_by.name, operation.signed_at, [WAITS])
    planned = data_for(now.visit).operation_by_code[operation.code]
    if entries:
        contents, hands = [each.content for each in entries], [each.entered_by_id for each in entries]
        work = Work(now.visit, planned, now, contents, hands, [each.entered_at for each in entries], at)
        last = entries[-1]
        return Begun(operation, last.entered_by.name, last.entered_at, step_of(operation.kind).handover(work))
    if operation.kind == "reading" and operation.area.stage == operation.stage:
        read = [readings[now.visit.pk, row] for row in planned.names if (now.visit.pk, row) in readings]
        if read:
            name, moment = max(read, key=lambda each: each[1])
            return Begun(operation, name, moment, [])
    return None


def _operations(visits: Iterable[Visit]) -> dict[UUID, list[Operation]]:
    found: dict[UUID, list[Operation]] = defaultdict(list)
    open_ones = Operation.objects.filter(NOT_COMPLETE, area__visit__in=[visit.pk for visit in visits])
    for operation in open_ones.select_related("area", "signed_by").order_by("order"):
        found[operation.area.visit_id].append(operation)
    return found


def _entries(visits: Iterable[Visit]) -> dict[UUID, list[Entry]]:
    found: dict[UUID, list[Entry]] = defaultdict(list)
    mine = Entry.objects.filter(operation__area__visit__in=[visit.pk for visit in visits], operation__signed_at__isnull=True)
    for entry in mine.filter(round=F("operation__round")).select_related("entered_by").order_by("entered_at", "id"):
        found[entry.operation_id].append(entry)
    return found


def _last_readings(visits: Iterable[Visit]) -> Readings:
    """By visit and row: who read there last, and when."""
    taken = Taken.objects.filter(visit__in=[visit.pk for visit in visits]).order_by("taken_at")
    values = taken.values_list("visit_id", "row", "reading__taken_by__name", "taken_at")
    return {(visit, row): (name, moment) for visit, row, name, moment in values}


def _trays(visits: Iterable[Visit]) -> dict[tuple[UUID, str], list[tuple[str, int]]]:
    """How many parts lie in each tray, by visit and area: taken off, and neither fitted again nor scrapped."""
    fitted = Fitment.objects.filter(item=OuterRef("item"), removed_at__isnull=True)
    out = Tagged.objects.filter(~Exists(fitted), visit__in=[visit.pk for visit in visits], tray__emptied_at__isnull=True)
    out = out.filter(tray__isnull=False, item__scrapped_at__isnull=True, item__isnull=False, followed_by__isnull=True)
    found: dict[tuple[UUID, str], list[tuple[str, int]]] = defaultdict(list)
    counted = out.values("visit_id", "area", "tray__tag").annotate(parts=Count("id")).order_by("tray__tag")
    for each in counted:
        found[each["visit_id"], each["area"]].append((each["tray__tag"], each["parts"]))
    return found
