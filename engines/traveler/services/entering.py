"""Something is entered at an operation, through its step."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.timezone import localdate

from engines.inspection.standing import State
from engines.steps.kinds.reading import ReadingForm, ReadingStep
from engines.steps.parts_out import parts_out, where_out
from engines.steps.registry import step_of
from engines.steps.work import Work
from engines.traveler.authority import check_authorised
from engines.traveler.errors import NotYet, SignedAlready
from engines.traveler.models import Entry, Operation
from engines.traveler.needs import need_at
from engines.traveler.queries import locked_operation
from engines.traveler.services.planning import follow_finding
from engines.traveler.services.reopening import reopen_with_dependents
from engines.traveler.work import waits_for, work_around, work_on
from engines.visits.chains import chain_of
from engines.visits.queries import locked_visit
from measurements.readings.models import Reading
from shopfloor.ledger import services as ledger
from shopfloor.ledger.canonical import canonical
from shopfloor.people.models import Person


def enter(*, operation: Operation, given: Mapping[str, Any], by: Person, at: datetime) -> Entry | None:
    """One entry, none where the step has none; raises what `enter_all` raises."""
    made = enter_all(operation=operation, given=[given], by=by, at=at)
    return made[0] if made else None


@transaction.atomic
def enter_all(*, operation: Operation, given: Sequence[Mapping[str, Any]], by: Person, at: datetime) -> list[Entry]:
    """What one person enters together, in its order: all of it or nothing.

    What is not accepted where the data say what it finds plans the operations for that, in the same transaction.

    Raises NotYet, SignedAlready, NotAuthorised, and what the step and the rooms below refuse.
    """
    visit = locked_visit(operation.area.visit_id)
    operation = locked_operation(operation.pk, visit)
    _check_open(operation)
    step, work = step_of(operation.kind), work_on(visit, operation, at, by)
    check_authorised(by, need_at(work.operation), work.data.model, localdate(at))
    _check_here(work, given)
    contents = step.keep_all(work, given, by=by, at=at)
    texts = [canonical(content).decode() for content in contents]
    made = [Entry(operation=operation, round=operation.round, text=text, entered_by=by, entered_at=at) for text in texts]
    if made:
        Entry.objects.bulk_create(made)
        chain = chain_of(visit)
        ledger.record(*(ledger.Entry(chain=chain, kind="entry.made", of=each) for each in made), by=by.pk, at=at)
    if any(step.is_not_accepted(content) for content in contents):
        follow_finding(visit, work.operation, by, at)
    return made


@transaction.atomic
def measure(
    *, operation: Operation, row: str, place: str, form: ReadingForm, corrects: Reading | None, by: Person, at: datetime
) -> Reading:
    """A reading at an operation of that kind; at a signed one where a part was reworked, or another came since.

    A correction of a signed one opens it again, and what depends on it.

    Raises NotYet, SignedAlready, NotAuthorised, and what the readings refuse.
    """
    visit = locked_visit(operation.area.visit_id)
    operation = locked_operation(operation.pk, visit)
    work = work_around(visit, operation, row, place)
    step = step_of(operation.kind)
    if not isinstance(step, ReadingStep) or row not in work.operation.names:
        raise NotYet(["nothing of that name is read at this operation."])
    requirement = work.now.rows.by_key.get((row, place))
    again = requirement is not None and work.now.of(requirement).state in (State.PENDING, State.MISSING)
    if operation.signed_at and not again and corrects is None:
        raise SignedAlready(operation.title)
    if not operation.signed_at:
        _check_open(operation)
    check_authorised(by, need_at(work.operation), work.data.model, localdate(at))
    reading = step.take(work, row, place, form, corrects, by=by, at=at)
    if operation.signed_at and corrects is not None:
        reopen_with_dependents(operation, f"a reading of {row} at {place} was corrected", by=by, at=at)
    return reading


def _check_here(work: Work, given: Sequence[Mapping[str, Any]]) -> None:
    """Nothing is entered about a part that is out of the shop. Raises NotYet."""
    if not (out := parts_out(work.now, work.operation)):
        return
    spots = [each.get("spot") for each in given]
    if not all(spots) or any(where_out(work.now, spot) for spot in spots if spot):
        raise NotYet(out)


def _check_open(operation: Operation) -> None:
    if operation.signed_at:
        raise SignedAlready(operation.title)
    if reasons := waits_for(operation.area.visit, operation):
        raise NotYet(reasons)
