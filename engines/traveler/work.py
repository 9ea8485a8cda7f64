"""An operation as its step wants it, and whether it may be worked on now."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db.models import F

from engines.inspection.facts import Inspection, inspection_about, inspection_around, inspection_of
from engines.steps.parts_out import parts_out
from engines.steps.registry import step_of
from engines.steps.work import Content, Work, heading
from engines.traveler.meaning import meaning_of_next
from engines.traveler.models import Entry, Operation
from engines.traveler.queries import addition_of, entries_of, operations_of
from engines.visits.models import Visit
from engines.visits.route import data_for
from shopfloor.ledger.canonical import canonical
from shopfloor.people.models import Person

REPAIR = "repair"


def work_on(visit: Visit, operation: Operation, at: datetime | None = None, by: Person | None = None) -> Work:
    """A constant number of queries."""
    names = data_for(visit).operation_by_code[operation.code].names
    now = inspection_about(visit, names) if step_of(operation.kind).asks_of_names else inspection_of(visit)
    return _work(now, operation, list(entries_of(operation).select_related(None)), at=at, by=by.pk if by else None)


def works_on(operations: Sequence[Operation], now: Inspection) -> list[tuple[Operation, Work]]:
    """The same of several operations of one visit, from what was gathered already: one query."""
    entries: dict[UUID, list[Entry]] = {each.pk: [] for each in operations}
    for entry in Entry.objects.filter(operation__in=operations, round=F("operation__round")):
        entries[entry.operation_id].append(entry)
    return [(each, _work(now, each, entries[each.pk])) for each in operations]


def _work(now: Inspection, operation: Operation, entries: Sequence[Entry], **viewed: Any) -> Work:
    return Work(
        now.visit,
        now.rows.data.operation_by_code[operation.code],
        now,
        entries=[entry.content for entry in entries],
        hands=[entry.entered_by_id for entry in entries],
        moments=[entry.entered_at for entry in entries],
        **viewed,
    )


def work_around(visit: Visit, operation: Operation, row: str, place: str) -> Work:
    """The same with only what was read at one place for one characteristic and its mates."""
    planned = data_for(visit).operation_by_code[operation.code]
    return Work(visit, planned, inspection_around(visit, row, place))


def waits_for(visit: Visit, operation: Operation) -> list[str]:
    """Why the operation cannot be worked on yet, a sentence each: its stage, and what must be complete before."""
    after = data_for(visit).operation_by_code[operation.code].after
    before = operations_of(visit).select_related(None).filter(code__in=after) if after else ()
    every = {each.code: each for each in before}
    return reasons_to_wait(operation, every, after)


def reasons_to_wait(operation: Operation, every: dict[str, Operation], after: tuple[str, ...]) -> list[str]:
    """The same from operations at hand, by code; those that this visit does not have are no reason."""
    area = operation.area
    reasons = [] if _is_its_turn(operation) else [f"{area.name} stands in {area.stage}, this belongs to {operation.stage}."]
    before = [every[code] for code in after if code in every]
    return reasons + [f"“{each.title}” must be complete first." for each in before if not each.is_complete]


def _is_its_turn(operation: Operation) -> bool:
    """In its stage; what is asked for anew after a rework also in repair, where reworks are done."""
    stage = operation.area.stage
    return stage == operation.stage or (stage == REPAIR and operation.round > 1 and _is_again_after_rework(operation))


def _is_again_after_rework(operation: Operation) -> bool:
    planned = data_for(operation.area.visit).operation_by_code[operation.code]
    return step_of(operation.kind).is_again_after_rework(planned)


def still_missing(operation: Operation, work: Work) -> list[str]:
    """What stands against the signature: parts of it that are out of the shop, and what its step still asks."""
    return [*parts_out(work.now, work.operation), *step_of(operation.kind).missing(work)]


def shown(operation: Operation, work: Work) -> Content:
    """All that a signer has before their eyes, and what their signature will mean."""
    added = addition_of(operation)
    why = {"added": {"reason": added.reason, "from_data": added.from_data}} if added else {}
    return {
        **heading(work),
        **why,
        "meaning": meaning_of_next(operation),
        "round": str(operation.round),
        **step_of(operation.kind).shown(work),
    }


def shown_text(operation: Operation, work: Work) -> str:
    return canonical(shown(operation, work)).decode()
