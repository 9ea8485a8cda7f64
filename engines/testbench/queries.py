"""Runs for their pages, papers and gate: a constant number of queries however much was read."""

from datetime import datetime
from fractions import Fraction
from uuid import UUID

from django.db.models import QuerySet

from engines.catalogue.data import ENGINE, STAGES
from engines.catalogue.queries import data_of
from engines.testbench.models import LoggedReading, Measured, Run, RunAnswer, RunLog, RunReading, StepSpan
from engines.testbench.schedule import Schedule, Spot
from engines.testbench.standing import Answered, Facts, Read, Span, Standing
from engines.traveler.models import Reopening
from engines.visits.models import StageMove, Visit, VisitArea
from engines.visits.queries import joined_to
from measurements.metrology.numbers import read_number
from shopfloor.jobs.states import State

BEFORE_TEST = STAGES[: STAGES.index("test")]


def runs() -> QuerySet[Run]:
    return Run.objects.select_related(*joined_to("visit"), "begun_by", "ended_by")


def runs_of(visit: Visit) -> QuerySet[Run]:
    return Run.objects.filter(visit=visit).select_related("begun_by", "ended_by").order_by("number")


def last_run(visit: Visit) -> Run | None:
    return runs_of(visit).last()


def run_that_counts(visit: Visit) -> Run | None:
    """The last run, if it passed and nothing was opened again since: no area moved back, no earlier signature void."""
    run = last_run(visit)
    if run is None or not run.passed or run.ended_at is None:
        return None
    moved = StageMove.objects.filter(area__visit=visit, moved_at__gte=run.ended_at).values_list("before", "after")
    if any(STAGES.index(after) < STAGES.index(before) and after in (*BEFORE_TEST, "test") for before, after in moved):
        return None
    opened = Reopening.objects.filter(operation__area__visit=visit, reopened_at__gte=run.ended_at)
    return None if opened.filter(operation__stage__in=BEFORE_TEST).exists() else run


def engine_area(visit: Visit) -> VisitArea | None:
    return VisitArea.objects.filter(visit=visit, code=ENGINE).first()


def schedule_of(visit: Visit) -> Schedule:
    return Schedule(data_of(visit.pack))


def locked_run(pk: UUID) -> Run:
    Run.objects.select_for_update().get(pk=pk)
    return runs().get(pk=pk)


def spans_of(run: Run) -> QuerySet[StepSpan]:
    return StepSpan.objects.filter(run=run).select_related("begun_by", "ended_by")


def readings_of(run: Run) -> QuerySet[RunReading]:
    """Typed ones, corrected ones too."""
    return RunReading.objects.filter(run=run).select_related("taken_by", "corrected_by")


def logged_of(run: Run) -> QuerySet[LoggedReading]:
    """Of the logs, what decides or is drawn."""
    return LoggedReading.objects.filter(log__run=run, shown=True).order_by("taken_at", "line")


def answers_of(run: Run) -> QuerySet[RunAnswer]:
    return RunAnswer.objects.filter(run=run).select_related("answered_by")


def logs_of(run: Run) -> QuerySet[RunLog]:
    return RunLog.objects.filter(run=run).select_related("file", "job", "sent_by")


class RunNow:
    """A run with all that was entered, gathered once: five queries."""

    def __init__(self, run: Run, now: datetime) -> None:
        self.run, self.schedule = run, schedule_of(run.visit)
        self.spans, self.readings = list(spans_of(run)), list(readings_of(run))
        self.answers, self.logs = list(answers_of(run)), list(logs_of(run))
        typed = [each for each in self.readings if not hasattr(each, "corrected_by")]
        reads = [_read(each) for each in (*typed, *logged_of(run))]
        self.standing = Standing(
            self.schedule,
            Facts(
                now=run.ended_at or now,
                spans=[Span(each.step, each.begun_at, each.ended_at) for each in self.spans],
                reads=sorted(reads, key=lambda each: each.at),
                answers=[Answered(each.code, each.yes) for each in self.answers],
                waiting=[each.name for each in self.logs if is_waiting(each)],
            ),
        )


def is_waiting(log: RunLog) -> bool:
    return log.job is not None and log.job.state in (State.WAITING, State.RUNNING)


def run_now(run: Run, now: datetime) -> RunNow:
    return RunNow(run, now)


def _read(row: Measured) -> Read:
    spot = Spot(row.channel, row.cylinder)
    return Read(row.step, spot, Fraction(read_number(row.value)), row.value, row.unit, row.taken_at)


def log_to_read(pk: UUID) -> RunLog:
    joined = ("file", "run", *joined_to("run__visit"))
    return RunLog.objects.select_related(*joined).get(pk=pk)


def typed_readings() -> QuerySet[RunReading]:
    return RunReading.objects.select_related("run", *joined_to("run__visit"), "taken_by")
