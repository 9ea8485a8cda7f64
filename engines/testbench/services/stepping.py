"""Steps of the schedule are begun and ended, in their order."""

from datetime import datetime

from django.db import IntegrityError, transaction

from engines.catalogue.data import RunStep
from engines.testbench.errors import FieldRefused, StepNotGoing, StepRefused
from engines.testbench.models import Run, StepSpan
from engines.testbench.order import waits_for
from engines.testbench.queries import run_now
from engines.testbench.services.open_run import close_span, open_run
from engines.testbench.standing import Standing
from engines.visits.chains import chain_of
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def begin_step(*, run: Run, step: str, by: Person, at: datetime) -> StepSpan:
    """Raises StepRefused with the reasons, FieldRefused, RunEnded, NotInTest."""
    run = open_run(run)
    standing = run_now(run, at).standing
    wanted = standing.schedule.step_by_code.get(step)
    if wanted is None:
        raise FieldRefused("The schedule has no such step. Choose one from the page.")
    if reasons := waits_for(standing, wanted):
        raise StepRefused(f"{wanted.title} is not begun yet. " + " ".join(reasons))
    try:
        with transaction.atomic():
            span = StepSpan.objects.create(run=run, step=step, begun_by=by, begun_at=at)
    except IntegrityError:
        raise StepRefused("Another step was begun at the same moment. Reload the page.") from None
    record(Entry(chain=chain_of(run.visit), kind="run.step-begun", of=span), by=by.pk, at=at)
    return span


@transaction.atomic
def end_step(*, run: Run, step: str, by: Person, at: datetime) -> None:
    """Raises StepNotGoing, FieldRefused, RunEnded."""
    run = open_run(run)
    standing = run_now(run, at).standing
    check_going(standing, step)
    record(*close_span(run, by, at), by=by.pk, at=at)


def check_going(standing: Standing, step: str) -> RunStep:
    """Raises FieldRefused, StepNotGoing."""
    wanted = standing.schedule.step_by_code.get(step)
    if wanted is None:
        raise FieldRefused("The schedule has no such step. Choose one from the page.")
    if standing.going != wanted:
        raise StepNotGoing(wanted.title)
    return wanted
