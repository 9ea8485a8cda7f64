"""Acts on the gauge register."""

from datetime import date, datetime
from decimal import Decimal

from django.db import IntegrityError, transaction
from django.utils import timezone

from measurements.gauges.errors import CorrectedAlready, FigureRefused, NumberTaken, Retired
from measurements.gauges.models import Calibration, Gauge
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from measurements.metrology.units import dimension_of
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

CHAIN = "measurements"


@transaction.atomic
def add_gauge(
    *, number: str, description: str, unit: str, range_min: str, range_max: str, resolution: str, by: Person, at: datetime
) -> Gauge:
    """Raises FigureRefused and NumberTaken."""
    _check_gauge(unit, range_min, range_max, resolution)
    try:
        with transaction.atomic():
            gauge = Gauge.objects.create(
                number=number,
                description=description,
                unit=unit,
                range_min=range_min,
                range_max=range_max,
                resolution=resolution,
                added_by=by,
                added_at=at,
            )
    except IntegrityError:
        raise NumberTaken(number) from None
    record(Entry(chain=CHAIN, kind="gauge.added", of=gauge), by=by.pk, at=at)
    return gauge


@transaction.atomic
def book_calibration(
    *,
    gauge: Gauge,
    done_on: date,
    due_on: date,
    expanded_u: str,
    certificate_number: str,
    laboratory: str,
    corrects: Calibration | None = None,
    correction_reason: str = "",
    by: Person,
    at: datetime,
) -> Calibration:
    """A new calibration; with `corrects` it takes the place of a wrong one. Raises FigureRefused, Retired, CorrectedAlready."""
    gauge = Gauge.objects.select_for_update().get(pk=gauge.pk)
    if gauge.retired_at:
        raise Retired(gauge.number)
    _check_calibration(gauge, done_on, due_on, expanded_u, at)
    if corrects and (corrects.gauge_id != gauge.pk or not correction_reason):
        raise FigureRefused("A correction names a calibration of the same gauge and says why it was wrong.")
    if corrects and Calibration.objects.filter(corrects=corrects).exists():
        raise CorrectedAlready
    calibration = Calibration.objects.create(
        gauge=gauge,
        done_on=done_on,
        due_on=due_on,
        expanded_u=expanded_u,
        certificate_number=certificate_number,
        laboratory=laboratory,
        corrects=corrects,
        correction_reason=correction_reason,
        booked_by=by,
        booked_at=at,
    )
    kind = "calibration.corrected" if corrects else "calibration.booked"
    record(Entry(chain=CHAIN, kind=kind, of=calibration), by=by.pk, at=at)
    return calibration


@transaction.atomic
def retire_gauge(*, gauge: Gauge, reason: str, by: Person, at: datetime) -> Gauge:
    """Raises Retired."""
    gauge = Gauge.objects.select_for_update().get(pk=gauge.pk)
    if gauge.retired_at:
        raise Retired(gauge.number)
    gauge.retired_by, gauge.retired_at, gauge.retired_reason = by, at, reason
    gauge.save(update_fields=["retired_by", "retired_at", "retired_reason"])
    record(Entry(chain=CHAIN, kind="gauge.retired", of=gauge), by=by.pk, at=at)
    return gauge


def _check_gauge(unit: str, range_min: str, range_max: str, resolution: str) -> None:
    try:
        dimension_of(unit)
    except MeasureError as error:
        raise FigureRefused(f"Unit: {error}.") from None
    least, greatest = _figure("Least reading", range_min), _figure("Greatest reading", range_max)
    if least >= greatest:
        raise FigureRefused(f"The range runs from {range_min} to {range_max}: the greatest reading must be above the least.")
    if _figure("Resolution", resolution) <= 0:
        raise FigureRefused("Resolution: write a figure above zero, such as 0.0001.")


def _check_calibration(gauge: Gauge, done_on: date, due_on: date, expanded_u: str, at: datetime) -> None:
    if _figure("Expanded uncertainty", expanded_u) <= 0:
        raise FigureRefused("Expanded uncertainty: write U at k = 2, a figure above zero, as the certificate states it.")
    if due_on <= done_on:
        raise FigureRefused(f"The calibration was done on {done_on}, so it cannot be due on {due_on}.")
    if done_on > timezone.localdate(at):
        raise FigureRefused(f"{done_on} lies ahead of today. Check the day on the certificate.")


def _figure(name: str, text: str) -> Decimal:
    try:
        return read_number(text)
    except MeasureError as error:
        raise FigureRefused(f"{name}: {error}.") from None
