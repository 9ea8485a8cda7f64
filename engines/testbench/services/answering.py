"""What somebody looked at while a step went on."""

from datetime import datetime

from django.db import transaction

from engines.testbench.errors import FieldRefused
from engines.testbench.models import Run, RunAnswer
from engines.testbench.queries import schedule_of
from engines.testbench.services.open_run import open_run
from engines.visits.chains import chain_of
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def answer(*, run: Run, code: str, yes: bool, words: str = "", by: Person, at: datetime) -> RunAnswer:
    """The last answer to a question counts. Raises FieldRefused, RunEnded, NotInTest."""
    run = open_run(run)
    check = schedule_of(run.visit).check_by_code.get(code)
    if check is None:
        raise FieldRefused("The schedule has no such question. Answer one from the page.")
    if not run.spans.filter(step=check.step).exists():
        raise FieldRefused(f"“{check.words}” is looked at during a step that was not begun yet.")
    if not yes and not words.strip():
        raise FieldRefused("Say in words what was seen, so that whoever decides can see it before them.")
    made = RunAnswer.objects.create(run=run, code=code, yes=yes, words=words.strip()[:400], answered_by=by, answered_at=at)
    record(Entry(chain=chain_of(run.visit), kind="run.answered", of=made), by=by.pk, at=at)
    return made
