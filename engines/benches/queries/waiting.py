"""What waits for whom: work that can be done now, decisions, signatures, parts."""

from collections import defaultdict
from dataclasses import dataclass
from uuid import UUID

from django.db.models import QuerySet

from engines.catalogue.data import ENGINE, ENGINE_STAGES, Line, PackData
from engines.catalogue.models import Pack
from engines.catalogue.queries import data_of, packs
from engines.inspection.models import Discrepancy, Disposition
from engines.inspection.queries import new_parts_awaited, undecided, undone
from engines.parts.models import Fitment
from engines.traveler.models import Operation
from engines.traveler.work import reasons_to_wait
from engines.visits.models import AddedOperation, ImpactLine, Visit, VisitArea
from engines.visits.route import data_for_all
from measurements.limits.models import State

MOST = 50


@dataclass(frozen=True)
class AreaWork:
    area: VisitArea
    operations: list[Operation]


@dataclass(frozen=True)
class EngineWork:
    visit: Visit
    areas: list[AreaWork]


@dataclass(frozen=True)
class Shortage:
    visit: Visit
    line: Line
    places: list[str]


def can_be_done_now(visits: list[Visit]) -> list[EngineWork]:
    """For each engine the operations whose stage has come and for which nothing else is waited for: one query, two where routes
    have additions."""
    by_visit: dict[UUID, dict[str, Operation]] = defaultdict(dict)
    every = Operation.objects.filter(area__visit__in=[visit.pk for visit in visits]).select_related("area").order_by("order")
    for operation in every:
        by_visit[operation.area.visit_id][operation.code] = operation
    data = data_for_all(visits)
    return [work for visit in visits if (work := _work(visit, data[visit.pk], by_visit[visit.pk])).areas]


def to_decide() -> QuerySet[Discrepancy]:
    joined = ("visit__engine__item", "visit__engine__model")
    return undecided().filter(visit__closed_at__isnull=True).select_related(*joined).order_by("raised_at")[:MOST]


def to_second() -> QuerySet[Disposition]:
    """Concessions that count only once a second person has signed them."""
    waiting = Disposition.objects.filter(kind="concession", second_at__isnull=True, discrepancy__visit__closed_at__isnull=True)
    waiting = waiting.filter(~undone())
    return waiting.select_related("discrepancy__visit__engine__item", "made_by").order_by("made_at")[:MOST]


def to_approve() -> QuerySet[AddedOperation]:
    """Operations that somebody asked to be added."""
    waiting = AddedOperation.objects.filter(decided_at__isnull=True, visit__closed_at__isnull=True)
    return waiting.select_related("visit__engine__item", "asked_by").order_by("asked_at", "id")[:MOST]


def drafts() -> QuerySet[Pack]:
    return packs().filter(state=State.DRAFT)[:MOST]


def to_release() -> QuerySet[VisitArea]:
    """Engines that have come to their last stage and wait for the signature under their release."""
    last = VisitArea.objects.filter(code=ENGINE, stage=ENGINE_STAGES[-1], visit__closed_at__isnull=True)
    return last.select_related("visit__engine__item").order_by("since", "id")[:MOST]


def to_settle() -> QuerySet[ImpactLine]:
    lines = ImpactLine.objects.filter(settled_at__isnull=True, visit__closed_at__isnull=True)
    return lines.select_related("visit__engine__item").order_by("listed_at", "id")[:MOST]


def new_parts() -> QuerySet[Disposition]:
    """Decisions that wait for another part."""
    joined = ("discrepancy__visit__engine__item", "discrepancy__visit__pack__model", "discrepancy__item")
    return new_parts_awaited().select_related(*joined).order_by("made_at")[:MOST]


def to_renew(visits: list[Visit]) -> list[Shortage]:
    """What is always renewed on engines that go together, and is not fitted yet: one query."""
    near = [visit for visit in visits if any(area.stage in ("repair", "assembly") for area in visit.areas.all())]
    held = Fitment.objects.filter(root__in=[visit.engine_id for visit in near], removed_at__isnull=True)
    fitted = set(held.values_list("root_id", "line", "place"))
    found = [
        Shortage(visit, line, [place for place in line.places if (visit.engine_id, line.line, place) not in fitted])
        for visit in near
        for line in data_of(visit.pack).lines
        if line.renew
    ]
    return [each for each in found if each.places]


def _work(visit: Visit, data: PackData, every: dict[str, Operation]) -> EngineWork:
    planned = data.operation_by_code
    ready: dict[UUID, list[Operation]] = defaultdict(list)
    for operation in every.values():
        if operation.signed_at is None and not reasons_to_wait(operation, every, planned[operation.code].after):
            ready[operation.area_id].append(operation)
    return EngineWork(visit, [AreaWork(area, ready[area.pk]) for area in visit.areas.all() if area.pk in ready])
