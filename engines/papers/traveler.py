"""The traveler: every operation with what was entered, read and signed, in every round."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeVar
from uuid import UUID

from engines.catalogue.changes import in_words
from engines.catalogue.data import STAGES, Caution, Operation
from engines.catalogue.queries import data_of
from engines.inspection.facts import taken_on
from engines.inspection.models import Taken
from engines.papers.gathering import describe, heading, shop_only, visit_of
from engines.steps.registry import step_of
from engines.traveler import models
from engines.traveler.queries import operations_of
from engines.vendors.models import OutsideWork
from engines.vendors.queries import orders_for
from engines.visits.models import Tagged, Visit, VisitArea
from engines.visits.queries import tags
from measurements.readings.shown import Shown, figures
from shopfloor.documents.kinds import DocumentKind

HIDDEN = ("spot", "photo", "joints", "key")


@dataclass(frozen=True)
class Line:
    """An operation as it is printed."""

    operation: models.Operation
    planned: Operation
    kind: str
    caution: str
    details: list[tuple[str, str]]
    paper: str
    entered: list[tuple[models.Entry, str]]
    readings: list[tuple[Taken, Shown]]
    tags: list[Tagged]
    orders: list[OutsideWork]
    signatures: list[models.Signature]
    reopenings: list[models.Reopening]


def context(subject: str) -> dict[str, object]:
    """A constant number of queries."""
    visit = visit_of(subject)
    return {**heading(visit), "areas": [(area, _stages(area, lines)) for area, lines in _by_area(visit)]}


def _by_area(visit: Visit) -> Iterable[tuple[VisitArea, list[Line]]]:
    data = data_of(visit.pack)
    planned = data.operation_by_code
    entries = _grouped(models.Entry.objects.filter(operation__area__visit=visit).select_related("entered_by"))
    signed = _grouped(models.Signature.objects.filter(operation__area__visit=visit).select_related("signed_by"))
    opened = _grouped(models.Reopening.objects.filter(operation__area__visit=visit).select_related("reopened_by"))
    taken, tagged = list(taken_on(visit)), list(tags(visit))
    outside = list(orders_for(visit.engine.item, visit.received_at))
    lines: dict[UUID, list[Line]] = defaultdict(list)
    for operation in operations_of(visit):
        names = planned[operation.code].names
        lines[operation.area_id].append(
            Line(
                operation=operation,
                planned=planned[operation.code],
                kind=step_of(operation.kind).words,
                caution=_cautions(operation, planned[operation.code], data.cautions),
                details=[(name.replace("_", " "), in_words(value)) for name, value in planned[operation.code].details.items()],
                paper=step_of(operation.kind).paper,
                entered=[(entry, _words(entry)) for entry in entries[operation.pk]],
                readings=_read(operation, names, taken),
                tags=[each for each in tagged if operation.kind == "strip-and-tag" and each.line in names],
                orders=[each for each in outside if each.operation == operation.code],
                signatures=signed[operation.pk],
                reopenings=opened[operation.pk],
            )
        )
    return [(area, lines[area.pk]) for area in visit.areas.all()]


def _read(operation: models.Operation, names: tuple[str, ...], taken: list[Taken]) -> list[tuple[Taken, Shown]]:
    if operation.kind not in ("reading", "fit-check"):
        return []
    mine = [each for each in taken if each.row in names or each.reading.row.from_row in names]
    return [(each, figures(each.reading)) for each in mine]


def _cautions(operation: models.Operation, planned: Operation, known: Iterable[Caution]) -> str:
    """The caution that the data name, by its words, and that of the kind."""
    named = next((each.words for each in known if each.code == planned.caution), planned.caution)
    return " ".join(filter(None, (named, step_of(operation.kind).caution)))


Made = TypeVar("Made", models.Entry, models.Signature, models.Reopening)


def _grouped(found: Iterable[Made]) -> dict[UUID, list[Made]]:
    groups: dict[UUID, list[Made]] = defaultdict(list)
    for each in found:
        groups[each.operation_id].append(each)
    return groups


def _stages(area: VisitArea, lines: list[Line]) -> list[tuple[str, list[Line]]]:
    found = [(stage, [line for line in lines if line.operation.stage == stage]) for stage in STAGES]
    return [(stage, mine) for stage, mine in found if mine]


def _words(entry: models.Entry) -> str:
    said = (
        f"{name.replace('_', ' ')}: {in_words(value)}" for name, value in entry.content.items() if value and name not in HIDDEN
    )
    return "; ".join(said)


kind = DocumentKind(
    name="visit-traveler",
    title="Traveler",
    template="papers/traveler.html",
    context=context,
    describe=describe,
    visible_to=shop_only,
    filename=lambda subject: f"traveler-{subject}.pdf",
)
