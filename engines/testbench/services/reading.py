"""Values read on the stand are entered, and corrected. What lies beyond an abort figure ends the run in the same act."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db import IntegrityError, transaction

from engines.testbench.errors import CorrectedAlready, FieldRefused
from engines.testbench.models import Run, RunReading
from engines.testbench.quantities import read_quantity
from engines.testbench.queries import RunNow, run_now
from engines.testbench.schedule import Schedule, Spot
from engines.testbench.services.ending import fail_if_beyond
from engines.testbench.services.open_run import open_run
from engines.testbench.services.stepping import check_going
from engines.testbench.spots import SpotRefused, check_spot
from engines.visits.chains import chain_of
from measurements.metrology.errors import MeasureError
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@dataclass(frozen=True)
class Typed:
    """`185 °F` at a spot; without a unit it is in that of the data."""

    channel: str
    value: str
    cylinder: int = 0


@transaction.atomic
def read(*, run: Run, step: str, typed: Sequence[Typed], by: Person, at: datetime, taken_at: datetime | None = None) -> Run:
    """All of them or none, at the step that is going, or blank for the run as a whole. The run, ended if one is beyond.

    Raises FieldRefused naming the channel, StepNotGoing, RunEnded, NotInTest.
    """
    run = open_run(run)
    now = run_now(run, at)
    if step:
        check_going(now.standing, step)
    if not typed:
        raise FieldRefused("Nothing was entered. Type at least one value.")
    moment = _moment(now, taken_at, at) if taken_at else at
    readings = [_reading(now.schedule, run, step, each, by, moment) for each in typed]
    RunReading.objects.bulk_create(readings)
    chain = chain_of(run.visit)
    ended = fail_if_beyond(run, by, at)
    record(*(Entry(chain=chain, kind="run.read", of=each) for each in readings), *ended, by=by.pk, at=at)
    return run


@transaction.atomic
def correct(*, reading: RunReading, value: str, reason: str, by: Person, at: datetime) -> RunReading:
    """While the run goes on; the earlier value stays in the record. Raises FieldRefused, CorrectedAlready, RunEnded."""
    run = open_run(reading.run)
    if not reason.strip():
        raise FieldRefused("Say what was wrong with the earlier value.")
    if RunReading.objects.filter(corrects=reading).exists():
        raise CorrectedAlready
    schedule = run_now(run, at).schedule
    made = _reading(schedule, run, reading.step, Typed(reading.channel, value, reading.cylinder), by, reading.taken_at)
    made.corrects, made.correction_reason = reading, reason.strip()[:200]
    try:
        with transaction.atomic():
            made.save(force_insert=True)
    except IntegrityError:
        raise CorrectedAlready from None
    ended = fail_if_beyond(run, by, at)
    record(Entry(chain=chain_of(run.visit), kind="run.corrected", of=made), *ended, by=by.pk, at=at)
    return made


def _reading(schedule: Schedule, run: Run, step: str, typed: Typed, by: Person, at: datetime) -> RunReading:
    spot = Spot(typed.channel, typed.cylinder)
    try:
        check_spot(schedule, step, spot)
        value, unit = read_quantity(typed.value, schedule.channels[typed.channel])
    except SpotRefused as refused:
        raise FieldRefused(str(refused)) from None
    except MeasureError as error:
        raise FieldRefused(f"{str(spot).capitalize()}: {error}.") from None
    return RunReading(
        run=run, step=step, channel=spot.channel, cylinder=spot.cylinder, value=value, unit=unit, taken_at=at, taken_by=by
    )


def _moment(now: RunNow, taken_at: datetime, at: datetime) -> datetime:
    begun = max((span.begun_at for span in now.spans), default=now.run.begun_at)
    if not begun <= taken_at <= at:
        raise FieldRefused(f"The moment {taken_at.isoformat()} lies outside the step that is going. Check the program's clock.")
    return taken_at
