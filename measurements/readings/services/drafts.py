"""Readings checked and judged but not yet kept, so that an act can write several together with its own record."""

from collections.abc import Callable, Sequence
from datetime import datetime, timedelta
from typing import TypeVar

from django.db.models import Q
from django.utils import timezone

from measurements.gauges.models import Gauge
from measurements.judge.lines import Answer
from measurements.limits.exact import exact
from measurements.limits.models import Condition, LimitRow
from measurements.metrology.errors import MeasureError
from measurements.readings import reads
from measurements.readings.deriving import derived_u_squared, judge_derived
from measurements.readings.errors import AheadOfTime, BadCorrection, ReadingRefused, SetUpNotConfirmed, WrongReading
from measurements.readings.fitting import fit_u_squared, judge_fit
from measurements.readings.judging import VERSION, judge_reading
from measurements.readings.models import Reading
from measurements.readings.models.reading import WORDS
from measurements.readings.points import Point, check_plan
from measurements.readings.uncertainty import root_text
from shopfloor.people.models import Person

Result = TypeVar("Result")
CLOCKS_APART = timedelta(minutes=5)
MOST_READINGS = 2**63


def reading(
    *,
    row: LimitRow,
    points: Sequence[Sequence[str]],
    unit: str,
    gauge: Gauge | None = None,
    condition: str = Condition.AS_RECEIVED,
    set_up: str = "",
    temperature: str = "",
    part_coefficient: str = "",
    gauge_coefficient: str = "",
    corrects: Reading | None = None,
    correction_reason: str = "",
    taken_at: datetime,
    sequence: int,
    by: Person,
    at: datetime,
) -> Reading:
    """`points` are (plane, direction, value as typed); `set_up` is what was confirmed. Raises ReadingRefused."""
    placed = _placed(points)
    _check(row, placed, condition, set_up)
    _check_correction(row, corrects, correction_reason)
    _check_order(taken_at, sequence, at)
    warmth = reads.warmth(temperature, part_coefficient, gauge_coefficient)
    taken = _judged(lambda: reads.take(placed, unit, gauge, warmth, timezone.localdate(taken_at)))
    return Reading(
        row=row,
        points=[list(point) for point in placed],
        unit=unit,
        gauge=gauge,
        calibration=taken.calibration,
        expanded_u=root_text(taken.read.u_squared),
        condition=condition,
        set_up=set_up,
        temperature=temperature,
        part_coefficient=part_coefficient,
        gauge_coefficient=gauge_coefficient,
        **_judged(lambda: judge_reading(exact(row), taken.read, _fits_of(row)))._asdict(),
        evaluator_version=VERSION,
        corrects=corrects,
        correction_reason=correction_reason or None,
        taken_by=by,
        taken_at=taken_at,
        received_at=at,
        sequence=sequence,
    )


def derived(*, row: LimitRow, source: Reading, by: Person, at: datetime) -> Reading:
    """The value that `row` takes from the points of `source`. Raises WrongReading."""
    if source.row.row != row.from_row or not source.points:
        raise WrongReading(f"{row.row} follows from a reading of {row.from_row}: take that reading first.")
    read = reads.kept(source)
    outcome = _judged(lambda: judge_derived(exact(row), row.quantity, row.planes, read))
    return Reading(
        row=row,
        unit=source.unit,
        gauge=source.gauge,
        calibration=source.calibration,
        expanded_u=root_text(derived_u_squared(row.quantity, read.u_squared)),
        set_up=source.set_up,
        source=source,
        **_inherited(source, outcome, by, at),
    )


def fitted(*, row: LimitRow, outer: Reading, inner: Reading, not_permitted: str = "", by: Person, at: datetime) -> Reading:
    """The fit of two mates; `not_permitted` says why they may not be paired, and then it is not judged. Raises WrongReading."""
    for mate, named in ((outer, row.outer_row), (inner, row.inner_row)):
        if mate.row.row != named or not mate.points:
            raise WrongReading(f"{row.row} is the fit of {row.outer_row} and {row.inner_row}: take a reading of {named} first.")
    around, within = reads.kept(outer), reads.kept(inner)
    outcome = _judged(lambda: judge_fit(exact(row), around, within, row.outer_planes, row.inner_planes, not_permitted))
    return Reading(
        row=row,
        unit=row.unit,
        expanded_u=root_text(fit_u_squared(around, within, row.unit)),
        outer=outer,
        inner=inner,
        **_inherited(max(outer, inner, key=lambda mate: (mate.taken_at, mate.sequence)), outcome, by, at),
    )


def _inherited(last: Reading, outcome: Answer, by: Person, at: datetime) -> dict[str, object]:
    """What a computed value has from the reading it follows from; of two mates, from the later."""
    return {
        **outcome._asdict(),
        "condition": last.condition,
        "evaluator_version": VERSION,
        "taken_by": by,
        "taken_at": last.taken_at,
        "received_at": at,
        "sequence": last.sequence,
    }


def _placed(points: Sequence[Sequence[str]]) -> list[Point]:
    if any(len(point) != 3 or not all(isinstance(part, str) for part in point) for point in points):
        raise ReadingRefused("Each point is a plane, a direction and a value as typed, all three as text.")
    return [Point(*point) for point in points]


def _check_order(taken_at: datetime, sequence: int, at: datetime) -> None:
    if taken_at > at + CLOCKS_APART:
        raise AheadOfTime
    if not 0 <= sequence < MOST_READINGS:
        raise ReadingRefused("The sequence of a reading is a whole number from 0: count the readings of this tablet.")


def _check(row: LimitRow, points: list[Point], condition: str, set_up: str) -> None:
    if not row.is_read:
        raise ReadingRefused(f"{row.row} is computed from other readings and never read: read those.")
    if condition not in Condition.values:
        raise ReadingRefused(f"Condition: write one of {', '.join(Condition.values)}.")
    check_plan(row, points)
    if row.set_up and not set_up.strip():
        raise SetUpNotConfirmed(row.set_up)
    _check_length("Set-up", set_up)


def _check_length(name: str, text: str) -> None:
    if len(text) > WORDS:
        raise ReadingRefused(f"{name}: {len(text)} letters are more than the {WORDS} that are kept. Say it shorter.")


def _check_correction(row: LimitRow, corrects: Reading | None, reason: str) -> None:
    if corrects is None and reason:
        raise BadCorrection("A reason for a correction is given, but no reading that it corrects. Name the reading.")
    if corrects and not reason.strip():
        raise BadCorrection("Say what was wrong with the reading that this one corrects.")
    if corrects and corrects.row_id != row.pk:
        raise BadCorrection("A correction is of the same row as the reading it corrects. Enter this one as a new reading.")
    _check_length("Reason", reason)


def _judged(judging: Callable[[], Result]) -> Result:
    """The result, a figure or unit that cannot be used being refused as a sentence."""
    try:
        return judging()
    except MeasureError as error:
        raise ReadingRefused(f"This cannot be judged: {str(error).removesuffix('.')}.") from None


def _fits_of(row: LimitRow) -> list[str]:
    """The fits that name the row, each once: asked only where a limit may stand on the fit."""
    if row.worn != "fit":
        return []
    fits = LimitRow.objects.filter(Q(outer_row=row.row) | Q(inner_row=row.row), table_id=row.table_id).order_by("order")
    return list(dict.fromkeys(fits.values_list("row", flat=True)))
