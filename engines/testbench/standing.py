"""How a run stands: what was read is good, what is missing, what ends it at once. Frozen values in, sentences out.

At each step the last reading of a channel counts, because a step is held until it is steady; beyond an abort figure every
reading counts. A step was held as long as its longest unbroken stretch: one that was interrupted begins anew.
"""

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from fractions import Fraction
from functools import cached_property

from engines.catalogue.data import RunCheck, RunLimit, RunStep
from engines.testbench.channels import AIR, CORRECTED_POWER, INPUTS, MAGNETOS, OIL_CONSUMPTION, OIL_LEFT, OIL_PUT_IN, POWER, READ
from engines.testbench.derived import Figure, correction_named, ignition_drops, oil_rate, power_corrected
from engines.testbench.limits import NOT_JUDGED, OUTSIDE, Held, hold, words_of
from engines.testbench.quantities import convert, figure_text
from engines.testbench.schedule import Schedule, Spot, least_minutes
from measurements.metrology.errors import MeasureError

MICROSECONDS_A_MINUTE = 60_000_000
_Source = Callable[[], list[Figure]]


@dataclass(frozen=True)
class Read:
    """A reading that counts; `step` blank for the run as a whole."""

    step: str
    spot: Spot
    value: Fraction
    text: str
    unit: str
    at: datetime


@dataclass(frozen=True)
class Span:
    """A stretch at a step; `ended` None while it goes on."""

    step: str
    begun: datetime
    ended: datetime | None


@dataclass(frozen=True)
class Answered:
    code: str
    yes: bool


@dataclass(frozen=True)
class Facts:
    """All of one run, in the order of the moments; `waiting` are logs that a worker has not read yet."""

    now: datetime
    spans: Sequence[Span] = ()
    reads: Sequence[Read] = ()
    answers: Sequence[Answered] = ()
    waiting: Sequence[str] = ()


@dataclass(frozen=True)
class Line:
    """One thing read or worked out at a step, held against one limit or none; `value` blank where it is missing."""

    step: str
    spot: Spot
    limit: RunLimit | None
    value: str = ""
    verdict: str = NOT_JUDGED
    beyond: bool = False
    why: str = ""

    @property
    def cannot_be_judged(self) -> bool:
        """Read, and limited, but the two cannot be held against each other."""
        return bool(self.value and self.limit) and self.verdict == NOT_JUDGED

    @property
    def limit_words(self) -> str:
        return words_of(self.limit) if self.limit else ""

    @property
    def sentence(self) -> str:
        return f"{self.spot} was {self.value}, to be {self.limit_words}."


class Standing:
    def __init__(self, schedule: Schedule, facts: Facts) -> None:
        self.schedule, self.facts = schedule, facts

    @cached_property
    def latest(self) -> dict[tuple[str, Spot], Read]:
        found: dict[tuple[str, Spot], Read] = {}
        for read in sorted(self.facts.reads, key=lambda each: each.at):
            found[read.step, read.spot] = read
        return found

    @cached_property
    def going(self) -> RunStep | None:
        """The step that is held now."""
        code = next((span.step for span in self.facts.spans if span.ended is None), "")
        return self.schedule.step_by_code.get(code)

    def minutes_at(self, step: RunStep) -> Fraction:
        return max((_minutes(span, self.facts.now) for span in self.facts.spans if span.step == step.code), default=Fraction(0))

    def is_held(self, step: RunStep) -> bool:
        begun = any(span.step == step.code for span in self.facts.spans)
        return begun and self.minutes_at(step) >= least_minutes(step)

    @cached_property
    def hours_turning(self) -> Fraction:
        turning = {step.code for step in self.schedule.steps if step.rpm}
        return sum((_minutes(span, self.facts.now) for span in self.facts.spans if span.step in turning), Fraction(0)) / 60

    def derived_at(self, step: str) -> tuple[dict[str, Figure], dict[str, str]]:
        """Figures by channel, and why one cannot be worked out; a figure whose readings are not there is in neither."""
        return self._derived[step]

    def lines_at(self, step: str) -> list[Line]:
        """Every limit of the step at every spot, then what was read without a limit."""
        return self._lines[step]

    @cached_property
    def lines(self) -> list[Line]:
        return [line for step in self._codes for line in self._lines[step]]

    @cached_property
    def beyond(self) -> list[str]:
        """What ends the run at once, a sentence each: any reading, not only the last."""
        limits = {code: _by_channel(self.schedule.limits_at(code)) for code in self._codes}
        found = [
            f"{read.spot} was {read.text} {read.unit}: {words_of(limit)}."
            for read in self.facts.reads
            for limit in limits.get(read.step, {}).get(read.spot.channel, ())
            if _held(read.value, read.unit, limit).beyond
        ]
        return found + [line.sentence for line in self.lines if line.beyond and line.spot.channel in INPUTS]

    @cached_property
    def outside(self) -> list[str]:
        """What makes the run fail."""
        told = [f"{self._title(line.step)}: {line.sentence}" for line in self.lines if line.verdict == OUTSIDE]
        return told + [f"{self._title(check.step)}: “{check.words}” was answered no." for check in self._answered(False)]

    @cached_property
    def missing(self) -> list[str]:
        """What must still be there before the run is ended as passed, each by name."""
        told = [f"The log {name} is not read yet: wait for the worker." for name in self.facts.waiting]
        if self.going:
            told.append(f"{self.going.title} is still going: end that step first.")
        for step in self.schedule.steps:
            told += [f"{step.title}: {words}" for words in self.lacking_at(step)]
        return told + [f"The whole run: {words}" for words in self._unread("")]

    def lacking_at(self, step: RunStep) -> list[str]:
        """What is not there yet at one step: its minutes, readings and answers."""
        held, least = self.minutes_at(step), least_minutes(step)
        told = [] if self.is_held(step) else [f"held {figure_text(held, 1)} of {step.minutes} minutes without a break."]
        if not any(span.step == step.code for span in self.facts.spans):
            told = ["not begun." if not least else f"not begun; it is held for {step.minutes} minutes."]
        return told + self._unread(step.code) + [f"“{check.words}” is not answered." for check in self._unanswered(step.code)]

    def not_good_at(self, step: RunStep) -> list[str]:
        """What is missing or outside at one step: before anything turns, the first step has neither."""
        outside = [line.sentence for line in self.lines_at(step.code) if line.verdict == OUTSIDE]
        said_no = [f"“{check.words}” was answered no." for check in self._answered(False) if check.step == step.code]
        return self.lacking_at(step) + outside + said_no

    def answer_to(self, check: RunCheck) -> bool | None:
        return self._answers.get(check.code)

    @cached_property
    def warnings(self) -> list[str]:
        found = [figure.warning for step in self._codes for figure in self.derived_at(step)[0].values() if figure.warning]
        return list(dict.fromkeys(found))

    @property
    def _codes(self) -> list[str]:
        return [*self.schedule.step_by_code, ""]

    @cached_property
    def _answers(self) -> dict[str, bool]:
        return {each.code: each.yes for each in self.facts.answers}

    def _answered(self, yes: bool) -> list[RunCheck]:
        return [check for check in self.schedule.data.run_checks if self._answers.get(check.code) is yes]

    def _unanswered(self, step: str) -> list[RunCheck]:
        return [check for check in self.schedule.checks_at(step) if check.code not in self._answers]

    def _title(self, step: str) -> str:
        return self.schedule.step_by_code[step].title if step else "The whole run"

    def _unread(self, step: str) -> list[str]:
        missing = [spot for spot in self.schedule.wanted_at(step) if (step, spot) not in self.latest]
        return (
            [f"{spot} was not read." for spot in missing]
            + [f"{channel} cannot be worked out: {why}." for channel, why in self.derived_at(step)[1].items()]
            + [f"{line.spot} cannot be judged: {line.why}." for line in self.lines_at(step) if line.cannot_be_judged]
        )

    @cached_property
    def _derived(self) -> dict[str, tuple[dict[str, Figure], dict[str, str]]]:
        return {code: self._work_out(code) for code in self._codes}

    def _work_out(self, step: str) -> tuple[dict[str, Figure], dict[str, str]]:
        figures: dict[str, Figure] = {}
        faults: dict[str, str] = {}
        for channel, found in self._sources(step):
            try:
                figures |= {figure.channel: figure for figure in found()}
            except MeasureError as error:
                faults[channel] = str(error).rstrip(".")
        return figures, faults

    def _sources(self, step: str) -> Iterator[tuple[str, _Source]]:
        """The ways to a derived figure whose readings are all there."""
        if self._has(step, *MAGNETOS):
            yield "ignition drop", lambda: ignition_drops(self._values(step, *MAGNETOS))
        name = self.schedule.data.run_correction
        wanted = any(limit.channel == CORRECTED_POWER for limit in self.schedule.limits_at(step))
        if (name or wanted) and self._has(step, POWER, *AIR):
            yield CORRECTED_POWER, lambda: [power_corrected(self._values(step, POWER, *AIR), correction_named(name))]
        if self._has("", OIL_PUT_IN, OIL_LEFT) and not step:
            yield OIL_CONSUMPTION, lambda: [self._oil_rate()]

    def _oil_rate(self) -> Figure:
        put_in = [convert(each.value, each.unit, "qt") for each in self.facts.reads if each.spot.channel == OIL_PUT_IN]
        return oil_rate(put_in, self._values("", OIL_LEFT)[OIL_LEFT], self.hours_turning)

    def _has(self, step: str, *channels: str) -> bool:
        return all((step, Spot(each)) in self.latest for each in channels)

    def _values(self, step: str, *channels: str) -> dict[str, Fraction]:
        """The last reading of each in its usual unit. Raises MeasureError where the data have a unit of another kind."""
        found = {each: self.latest[step, Spot(each)] for each in channels}
        return {channel: convert(read.value, read.unit, READ[channel]) for channel, read in found.items()}

    @cached_property
    def _lines(self) -> dict[str, list[Line]]:
        return {code: [*self._judged(code), *self._without_limit(code)] for code in self._codes}

    def _judged(self, step: str) -> Iterator[Line]:
        figures, faults = self.derived_at(step)
        for limit in self.schedule.limits_at(step):
            for spot in self.schedule.spots_of(limit.channel):
                read, figure = self.latest.get((step, spot)), figures.get(limit.channel)
                if figure:
                    yield _line(step, spot, limit, figure.value, figure.unit, f"{figure_text(figure.value)} {figure.unit}")
                elif read:
                    yield _line(step, spot, limit, read.value, read.unit, f"{read.text} {read.unit}")
                else:
                    yield Line(step, spot, limit, why=_fault(faults, limit.channel) or "not read yet")

    def _without_limit(self, step: str) -> Iterator[Line]:
        limited = {limit.channel for limit in self.schedule.limits_at(step)}
        for (code, spot), read in self.latest.items():
            if code == step and spot.channel not in limited:
                yield Line(step, spot, None, f"{read.text} {read.unit}", why="the data give no limit here")
        for figure in self.derived_at(step)[0].values():
            if figure.channel not in limited:
                shown = f"{figure_text(figure.value)} {figure.unit}"
                yield Line(step, Spot(figure.channel), None, shown, why="the data give no limit here")


def _line(step: str, spot: Spot, limit: RunLimit, value: Fraction, unit: str, text: str) -> Line:
    held = _held(value, unit, limit)
    return Line(step, spot, limit, text, held.verdict, held.beyond, held.why)


def _held(value: Fraction, unit: str, limit: RunLimit) -> Held:
    """Not judged where the data give the limit in a unit of another kind."""
    try:
        return hold(convert(value, unit, limit.unit), limit)
    except MeasureError as error:
        return Held(NOT_JUDGED, False, f"{error}: have the data put right")


def _fault(faults: dict[str, str], channel: str) -> str:
    """Why it cannot be worked out: the three drops have one reason in common."""
    return faults.get(channel) or faults.get(channel.rpartition(" ")[0], "")


def _minutes(span: Span, now: datetime) -> Fraction:
    stretch = max((span.ended or now) - span.begun, timedelta(0))
    return Fraction(stretch // timedelta(microseconds=1), MICROSECONDS_A_MINUTE)


def _by_channel(limits: Sequence[RunLimit]) -> dict[str, list[RunLimit]]:
    found: dict[str, list[RunLimit]] = defaultdict(list)
    for limit in limits:
        found[limit.channel].append(limit)
    return found
