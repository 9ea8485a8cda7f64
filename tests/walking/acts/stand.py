"""The engine on the stand: a run begun, held, read, answered, ended, broken off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engines.testbench import services
from engines.testbench.findings import findings_text, sha256_of
from engines.testbench.models import Run, RunReading
from engines.testbench.queries import run_now, runs
from engines.testbench.services import Typed
from shopfloor.people.permissions import Permission
from tests.walking.attempt import Attempt
from tests.walking.dice import slip

if TYPE_CHECKING:
    from tests.walking.walk import Walk

STEP = "warm"


def begin(walk: Walk) -> Attempt:
    return Attempt(
        "begins a run",
        Permission.RUN_ENGINES,
        ("testbench:begin", walk.visit.pk),
        lambda by, at: services.begin_run(visit=walk.visit, by=by, at=at),
    )


def run_on(walk: Walk) -> Attempt | None:
    """What comes next in a run, or now and then anything of it."""
    run = Run.objects.filter(visit=walk.visit).order_by("number").last()
    if run is None or (run.ended_at and not slip(walk.rng)):
        return begin(walk)
    if slip(walk.rng, 0.06):
        return _break_off(walk, run)
    going = run.spans.filter(ended_at__isnull=True).first()
    nexts = [_answer, _read, _end_step, _correct] if going else [_begin_step]
    if not going and run.spans.exists():
        nexts = [_end] * 4 + [_begin_step]
    return walk.rng.choice(OTHERS if slip(walk.rng) else nexts)(walk, run)


def _begin_step(walk: Walk, run: Run) -> Attempt:
    step = "full" if slip(walk.rng, 0.05) else STEP
    return _at_run(
        walk, run, f"begins {step}", "begin-step", lambda by, at: services.begin_step(run=run, step=step, by=by, at=at)
    )


def _end_step(walk: Walk, run: Run) -> Attempt:
    if not slip(walk.rng, 0.3):
        walk.wait(6)
    return _at_run(walk, run, "ends the step", "end-step", lambda by, at: services.end_step(run=run, step=STEP, by=by, at=at))


def _read(walk: Walk, run: Run) -> Attempt:
    value = walk.rng.choice(["9", "20", "forty"]) if slip(walk.rng) else "40"
    typed = [Typed("oil pressure", value)]
    return _at_run(
        walk, run, f"reads {value} psi", "read", lambda by, at: services.read(run=run, step=STEP, typed=typed, by=by, at=at)
    )


def _correct(walk: Walk, run: Run) -> Attempt:
    reading = RunReading.objects.filter(run=run).select_related("run").order_by("taken_at").last()
    if reading is None:
        return _read(walk, run)
    reason, value = "" if slip(walk.rng) else "misread", walk.rng.choice(["40", "20"])
    return Attempt(
        f"corrects {reading.value} to {value}",
        Permission.RUN_ENGINES,
        ("testbench:correct", reading.pk),
        lambda by, at: services.correct(reading=reading, value=value, reason=reason, by=by, at=at),
    )


def _answer(walk: Walk, run: Run) -> Attempt:
    yes, words = not slip(walk.rng, 0.1), walk.rng.choice(["", "a drop"])
    return _at_run(
        walk,
        run,
        f"answers {yes}",
        "answer",
        lambda by, at: services.answer(run=run, code="leaks", yes=yes, words=words, by=by, at=at),
    )


def _end(walk: Walk, run: Run) -> Attempt:
    seen = "another text" if slip(walk.rng, 0.05) else ""

    def do(by, at):
        shown = sha256_of(findings_text(run_now(runs().get(pk=run.pk), at).standing))
        return services.end_run(run=run, seen_sha256=seen or shown, by=by, at=at)

    return _at_run(walk, run, "ends the run", "end", do)


def _break_off(walk: Walk, run: Run) -> Attempt:
    at_fault = slip(walk.rng, 0.5)
    return _at_run(
        walk,
        run,
        f"breaks the run off, the engine {'' if at_fault else 'not '}at fault",
        "break-off",
        lambda by, at: services.break_off(run=run, reason="a leak", engine_at_fault=at_fault, by=by, at=at),
    )


def _at_run(walk: Walk, run: Run, words: str, name: str, do) -> Attempt:
    return Attempt(words, Permission.RUN_ENGINES, (f"testbench:{name}", run.pk), do)


OTHERS = (_begin_step, _end_step, _read, _correct, _answer, _end, _break_off)
