"""What the page and the paper of a run show, the same for both."""

from dataclasses import dataclass
from datetime import timedelta

from django.utils import timezone

from engines.catalogue.data import ENGINE, Caution, PackData, RunCheck, RunStep
from engines.testbench.curves import Drawing, drawings
from engines.testbench.derived import Figure
from engines.testbench.models import RunAnswer, RunReading, StepSpan
from engines.testbench.order import waits_for
from engines.testbench.quantities import figure_text
from engines.testbench.queries import RunNow
from engines.testbench.schedule import least_minutes
from engines.testbench.standing import Line

ALWAYS = (
    "A running engine and its propeller kill. Nobody stands in the arc or in line with it, and nobody reaches past it.",
    "Treat the propeller as if the engine could fire: switches off, mixture cut, before anybody comes near, also after the run.",
    "Watch for fire, with an extinguisher at hand and the fuel cock within reach. Protect ears and eyes.",
    "The manufacturer's current approved data govern; this schedule only follows what was entered of them.",
)


@dataclass(frozen=True)
class ShownStep:
    step: RunStep
    caution: str
    spans: list[StepSpan]
    held: str
    is_held: bool
    is_going: bool
    lines: list[Line]
    answers: list[tuple[RunCheck, bool | None, list[RunAnswer]]]
    derived: list[tuple[Figure, str]]
    waits: list[str]


@dataclass(frozen=True)
class Shown:
    now: RunNow
    steps: list[ShownStep]
    whole: list[Line]
    whole_derived: list[tuple[Figure, str]]
    drawings: list[Drawing]
    cautions: list[Caution]
    always: tuple[str, ...]
    ready_at: str

    @property
    def going(self) -> ShownStep | None:
        return next((each for each in self.steps if each.is_going), None)

    @property
    def readings(self) -> list[RunReading]:
        return self.now.readings


def shown(now: RunNow) -> Shown:
    standing = now.standing
    return Shown(
        now=now,
        steps=[_step(now, step) for step in now.schedule.steps],
        whole=standing.lines_at(""),
        whole_derived=_derived(now, ""),
        drawings=drawings(standing),
        cautions=cautions_of(now.schedule.data),
        always=ALWAYS,
        ready_at=_ready_at(now),
    )


def cautions_of(data: PackData) -> list[Caution]:
    """Those of the whole engine, and those that the data call by what runs or turns, wherever they stand."""
    return [each for each in data.cautions if each.area == ENGINE or each.code.startswith(("running", "propeller"))]


def _caution(data: PackData, caution: str) -> str:
    """The words of a caution that a step names by its code, or its own words."""
    return next((each.words for each in data.cautions if each.code == caution), caution)


def _step(now: RunNow, step: RunStep) -> ShownStep:
    standing = now.standing
    return ShownStep(
        step=step,
        caution=_caution(now.schedule.data, step.caution),
        spans=[span for span in now.spans if span.step == step.code],
        held=figure_text(standing.minutes_at(step), 1),
        is_held=standing.is_held(step),
        is_going=standing.going == step,
        lines=standing.lines_at(step.code),
        answers=[
            (check, standing.answer_to(check), [each for each in now.answers if each.code == check.code])
            for check in now.schedule.checks_at(step.code)
        ],
        derived=_derived(now, step.code),
        waits=[] if now.run.ended_at else waits_for(standing, step),
    )


def _derived(now: RunNow, step: str) -> list[tuple[Figure, str]]:
    return [(each, figure_text(each.value)) for each in now.standing.derived_at(step)[0].values()]


def _ready_at(now: RunNow) -> str:
    """The moment, on the shop's clock, until which the step that is going must be held; blank when none is."""
    standing = now.standing
    span = next((each for each in now.spans if each.ended_at is None), None)
    if span is None or standing.going is None:
        return ""
    until = span.begun_at + timedelta(seconds=float(least_minutes(standing.going) * 60))
    return timezone.localtime(until).strftime("%H:%M:%S")
