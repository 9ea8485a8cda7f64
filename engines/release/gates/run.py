"""The engine ran on the stand and passed, and nothing was opened again after that."""

from engines.catalogue.queries import data_of
from engines.release.blockers import Blocker, Situation
from engines.testbench.models import Run
from engines.testbench.queries import last_run, run_that_counts


def run_passed(situation: Situation) -> list[Blocker]:
    """Asked for where the engine data have a schedule for the stand."""
    visit = situation.area.visit
    if not data_of(visit.pack).run_steps or run_that_counts(visit):
        return []
    return [Blocker(_why_not(last_run(visit)), "run", visit.pk)]


def _why_not(run: Run | None) -> str:
    if run is None:
        return "The engine was not run on the stand yet."
    if run.ended_at is None:
        return f"Run {run.number} on the stand is going on."
    if run.passed:
        return f"Run {run.number} on the stand passed, but something was opened again after it: the engine is run anew."
    return f"Run {run.number} on the stand did not pass ({run.outcome}): the engine is run anew."
