"""An operation as its step wants it, and whether it may be worked on now."""

from datetime import datetime

from engines.catalogue.queries import data_of
from engines.inspection.facts import inspection_about, inspection_around, inspection_of
from engines.steps.registry import step_of
from engines.steps.work import Content, Work, heading
from engines.traveler.models import Operation
from engines.traveler.queries import entries_of, operations_of
from engines.visits.models import Visit
from shopfloor.ledger.canonical import canonical
from shopfloor.people.models import Person


def work_on(visit: Visit, operation: Operation, at: datetime | None = None, by: Person | None = None) -> Work:
    """A constant number of queries."""
    planned, entries = data_of(visit.pack).operation_by_code[operation.code], list(entries_of(operation))
    return Work(
        visit,
        planned,
        inspection_about(visit, planned.names) if step_of(operation.kind).asks_of_names else inspection_of(visit),
        entries=[entry.content for entry in entries],
        hands=[entry.entered_by_id for entry in entries],
        moments=[entry.entered_at for entry in entries],
        at=at,
        by=by.pk if by else None,
    )


def work_around(visit: Visit, operation: Operation, row: str, place: str) -> Work:
    """The same with only what was read at one place for one characteristic and its mates."""
    planned = data_of(visit.pack).operation_by_code[operation.code]
    return Work(visit, planned, inspection_around(visit, row, place))


def waits_for(visit: Visit, operation: Operation) -> list[str]:
    """Why the operation cannot be worked on yet, a sentence each: its stage, and what must be complete before."""
    after = data_of(visit.pack).operation_by_code[operation.code].after
    before = operations_of(visit).select_related(None).filter(code__in=after) if after else ()
    every = {each.code: each for each in before}
    return reasons_to_wait(operation, every, after)


def reasons_to_wait(operation: Operation, every: dict[str, Operation], after: tuple[str, ...]) -> list[str]:
    """The same from operations at hand, by code; those that this visit does not have are no reason."""
    area = operation.area
    reasons = [] if area.stage == operation.stage else [f"{area.name} stands in {area.stage}, this belongs to {operation.stage}."]
    before = [every[code] for code in after if code in every]
    return reasons + [f"“{each.title}” must be complete first." for each in before if not each.is_complete]


def still_missing(operation: Operation, work: Work) -> list[str]:
    return step_of(operation.kind).missing(work)


def shown(operation: Operation, work: Work) -> Content:
    """All that a signer has before their eyes."""
    return {**heading(work), "round": str(operation.round), **step_of(operation.kind).shown(work)}


def shown_text(operation: Operation, work: Work) -> str:
    return canonical(shown(operation, work)).decode()
