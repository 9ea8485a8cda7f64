"""A run ends: passed, failed, or broken off for a reason that is not the engine's. What was found stays with it."""

from datetime import datetime

from django.db import transaction

from engines.testbench.errors import FieldRefused, NotComplete, SeenOtherwise, StepRefused
from engines.testbench.findings import findings_text, sha256_of
from engines.testbench.models import Outcome, Run
from engines.testbench.queries import run_now
from engines.testbench.services.failing import reopen_and_raise
from engines.testbench.services.open_run import close_span, held_open, open_run
from engines.visits.chains import chain_of
from engines.visits.queries import locked_visit
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

KINDS = {Outcome.PASSED: "run.passed", Outcome.FAILED: "run.failed", Outcome.BROKEN_OFF: "run.broken-off"}


@transaction.atomic
def end_run(*, run: Run, seen_sha256: str, by: Person, at: datetime) -> Run:
    """As passed where everything is there and good, as failed where something is outside its limits.

    The person's password was asked for before. Raises NotComplete with everything missing, StepRefused, SeenOtherwise, RunEnded.
    """
    run = open_run(run)
    standing = run_now(run, at).standing
    if standing.going:
        raise StepRefused(f"{standing.going.title} is still going: end that step first, or break the run off.")
    text = findings_text(standing)
    if sha256_of(text) != seen_sha256:
        raise SeenOtherwise
    if standing.outside:
        record(*_close(run, Outcome.FAILED, " ".join(standing.outside), by, at), by=by.pk, at=at)
        return run
    if standing.missing:
        raise NotComplete(standing.missing)
    record(*_close(run, Outcome.PASSED, "", by, at), by=by.pk, at=at)
    return run


@transaction.atomic
def break_off(*, run: Run, reason: str, engine_at_fault: bool, by: Person, at: datetime) -> Run:
    """At once, whatever is going. Where the engine gave the reason the run has failed. Raises FieldRefused, RunEnded."""
    locked_visit(run.visit_id)
    run = held_open(run)
    if not reason.strip():
        raise FieldRefused("Say why the run is broken off.")
    outcome = Outcome.FAILED if engine_at_fault else Outcome.BROKEN_OFF
    record(*_close(run, outcome, f"Broken off: {reason.strip()}", by, at), by=by.pk, at=at)
    return run


def fail_if_beyond(run: Run, by: Person, at: datetime) -> list[Entry]:
    """End the run at once where something lies beyond an abort figure; the entries of that end for the caller's act."""
    beyond = run_now(run, at).standing.beyond
    return _close(run, Outcome.FAILED, " ".join(beyond), by, at) if beyond else []


def _close(run: Run, outcome: Outcome, why: str, by: Person, at: datetime) -> list[Entry]:
    entries = close_span(run, by, at)
    run.findings = findings_text(run_now(run, at).standing)
    run.findings_sha256 = sha256_of(run.findings)
    run.ended_by, run.ended_at, run.outcome, run.why = by, at, outcome, why[:600]
    run.save(update_fields=["ended_by", "ended_at", "outcome", "why", "findings", "findings_sha256"])
    if outcome == Outcome.FAILED:
        reopen_and_raise(run, by, at)
    return [*entries, Entry(chain=chain_of(run.visit), kind=KINDS[outcome], of=run)]
