"""The run on the stand: a schedule that can be followed, limits that can be met."""

from collections.abc import Iterator
from decimal import Decimal
from itertools import pairwise

from engines.catalogue.data import ENGINE, RunLimit, RunStep
from engines.packs.reading.checks.names import unknown
from engines.packs.reading.draft import Draft
from engines.packs.reading.mistakes import PACK, Mistake, quoted
from engines.packs.reading.running import BOUNDS
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from measurements.metrology.running.corrected_power import CORRECTIONS

CORRECTED = "corrected power"
_DECIMALS = "write it in plain decimals, such as 240 or 2600"


def the_schedule_can_be_followed(draft: Draft) -> Iterator[Mistake]:
    cautions = {caution.code for _, caution in draft.cautions}
    if draft.run_steps and ENGINE not in draft.area_codes:
        line, _ = draft.run_steps[0]
        yield Mistake(PACK, line, "there is a run on the stand, but no whole engine", f"list the area {ENGINE}")
    for line, step in draft.run_steps:
        yield from unknown(PACK, line, "caution", step.caution, cautions)
        yield from _step_figures(line, step)
    turning = [line for line, step in draft.run_steps if step.rpm]
    if turning and turning[0] == draft.run_steps[0].line:
        wrong = f"the engine turns at the first step, {quoted(draft.run_steps[0].entry.code)}"
        yield Mistake(PACK, turning[0], wrong, "let a step without rpm come first, at which oil reaches every bearing")


def limits_of_the_run_hold(draft: Draft) -> Iterator[Mistake]:
    steps = {step.code for _, step in draft.run_steps}
    for line, limit in draft.run_limits:
        yield from unknown(PACK, line, "run step", limit.step, steps)
        yield from _bounds(line, limit)
    for line, check in draft.run_checks:
        yield from unknown(PACK, line, "run step", check.step, steps)


def a_failed_run_opens_what_exists(draft: Draft) -> Iterator[Mistake]:
    line = draft.head_lines.get("run_reopens", 1)
    for area in draft.head.get("run_reopens", ()):
        yield from unknown(PACK, line, "area", area, draft.area_codes - {ENGINE})


def rated_power_can_be_compared(draft: Draft) -> Iterator[Mistake]:
    """A power is rated at a speed, and what is read on the day is corrected by a formula that the data name."""
    power, rpm, correction = (draft.head.get(name, "") for name in ("rated_power", "rated_rpm", "run_correction"))
    line = draft.head_lines.get("rated_power", 1)
    for name, text in (("rated_power", power), ("rated_rpm", rpm)):
        if text and not _positive(text):
            yield Mistake(PACK, draft.head_lines.get(name, 1), f"{name} {quoted(text)} is no figure above zero", _DECIMALS)
    if bool(power) != bool(rpm):
        yield Mistake(PACK, line, "rated_power and rated_rpm stand only together", "fill in both, or neither")
    if power and not correction:
        yield Mistake(PACK, line, "power is rated, but no correction is named", "name the correction in run_correction")
    if correction and correction not in CORRECTIONS:
        right = f"use one of: {', '.join(CORRECTIONS)}"
        yield Mistake(PACK, draft.head_lines.get("run_correction", 1), f"no correction is called {quoted(correction)}", right)
    corrected = [line for line, limit in draft.run_limits if limit.channel == CORRECTED]
    if corrected and not power:
        yield Mistake(PACK, corrected[0], f"{CORRECTED} has limits, but no power is rated", "fill in rated_power and rated_rpm")


def _step_figures(line: int, step: RunStep) -> Iterator[Mistake]:
    for name, text in (("rpm", step.rpm), ("minutes", step.minutes)):
        if text and not (_positive(text) or (name == "minutes" and _figure(text) == 0)):
            yield Mistake(PACK, line, f"{name} {quoted(text)} is no figure above zero", _DECIMALS)


def _bounds(line: int, limit: RunLimit) -> Iterator[Mistake]:
    texts = {name: getattr(limit, name) for name in BOUNDS}
    figures = {name: _figure(text) for name, text in texts.items() if text}
    if not figures:
        yield Mistake(PACK, line, f"the limit of {quoted(limit.channel)} says nothing", "fill in at least one of its figures")
    wrong = [name for name, figure in figures.items() if figure is None]
    for name in wrong:
        yield Mistake(PACK, line, f"{name} {quoted(texts[name])} is no number", "write it in plain decimals, such as 2.5")
    rising = [(name, figures[name]) for name in ("abort_low", "low", "high", "abort_high") if figures.get(name) is not None]
    for (name, less), (above, more) in pairwise(rising):
        if less is not None and more is not None and less > more:
            told = f"limits are reversed: {name} {less:f} is above {above} {more:f} ({limit.unit})"
            yield Mistake(PACK, line, told, "abort_low, low, high, abort_high rise in this order")


def _figure(text: str) -> Decimal | None:
    try:
        return read_number(text)
    except MeasureError:
        return None


def _positive(text: str) -> bool:
    figure = _figure(text)
    return figure is not None and figure > 0
