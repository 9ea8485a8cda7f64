"""What pack.yaml says of the run on the stand: its steps, its limits, what is looked at, and what a failed run opens."""

from typing import Any

from engines.catalogue.data import RunCheck, RunLimit, RunStep
from engines.packs.reading.draft import Draft, Placed
from engines.packs.reading.entries import CITED, Entry

HEAD = ("run_reopens", "rated_power", "rated_rpm", "run_correction")
LISTS = {
    "run_steps": ("code", "title", "rpm", "minutes", "caution", *CITED),
    "run_limits": ("step", "channel", "unit", "low", "high", "abort_low", "abort_high", *CITED),
    "run_checks": ("code", "step", "words", *CITED),
}
TITLE, UNIT, FIGURE, WORDS = 200, 20, 40, 400
BOUNDS = ("low", "high", "abort_low", "abort_high")


def run_head(head: Entry) -> dict[str, Any]:
    return {
        "run_reopens": head.texts("run_reopens"),
        **{name: head.text(name, FIGURE, needed=False) for name in ("rated_power", "rated_rpm", "run_correction")},
    }


def read_run(head: Entry, draft: Draft) -> None:
    for each in head.entries("run_steps", LISTS["run_steps"]):
        draft.run_steps.append(Placed(each.line, _step(each)))
    for each in head.entries("run_limits", LISTS["run_limits"]):
        draft.run_limits.append(Placed(each.line, _limit(each)))
    for each in head.entries("run_checks", LISTS["run_checks"]):
        check = RunCheck(code=each.text("code"), step=each.text("step"), words=each.text("words", WORDS), source=each.source())
        draft.run_checks.append(Placed(each.line, check))


def _step(entry: Entry) -> RunStep:
    return RunStep(
        code=entry.text("code"),
        title=entry.text("title", TITLE),
        rpm=entry.text("rpm", FIGURE, needed=False),
        minutes=entry.text("minutes", FIGURE),
        caution=entry.text("caution", needed=False),
        source=entry.source(),
    )


def _limit(entry: Entry) -> RunLimit:
    return RunLimit(
        step=entry.text("step", needed=False),
        channel=entry.text("channel"),
        unit=entry.text("unit", UNIT),
        **{name: entry.text(name, FIGURE, needed=False) for name in BOUNDS},
        source=entry.source(),
    )
