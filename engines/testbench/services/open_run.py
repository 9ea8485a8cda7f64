"""A run that goes on, held for a write."""

from datetime import datetime

from engines.testbench.errors import RunEnded
from engines.testbench.models import Run, StepSpan
from engines.testbench.queries import locked_run
from engines.testbench.services.beginning import check_can_run
from engines.visits.chains import chain_of
from engines.visits.queries import locked_visit
from shopfloor.ledger.services import Entry
from shopfloor.people.models import Person


def open_run(run: Run) -> Run:
    """Its visit is locked first, then the run. Raises RunEnded, NotInTest, Closed."""
    visit = locked_visit(run.visit_id)
    run = held_open(run)
    check_can_run(visit)
    return run


def held_open(run: Run) -> Run:
    """The same wherever the engine stands, for breaking off. The caller has locked the visit. Raises RunEnded."""
    run = locked_run(run.pk)
    if run.ended_at:
        raise RunEnded(run.number, run.outcome)
    return run


def close_span(run: Run, by: Person | None, at: datetime) -> list[Entry]:
    """End the step that is going, if one is; its entry for the caller's act."""
    span = StepSpan.objects.select_for_update().filter(run=run, ended_at__isnull=True).first()
    if span is None:
        return []
    span.ended_by, span.ended_at = by, at
    span.save(update_fields=["ended_by", "ended_at"])
    return [Entry(chain=chain_of(run.visit), kind="run.step-ended", of=span)]
