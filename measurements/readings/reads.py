"""A reading as the judging wants it: with what its gauge is worth that day, or from what was kept."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction

from measurements.gauges.models import Calibration, Gauge
from measurements.gauges.queries import OnDay, on_day
from measurements.gauges.standing import reach
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from measurements.metrology.units import ratio
from measurements.readings.errors import ReadingRefused
from measurements.readings.judging import Read, Warmth
from measurements.readings.models import Reading
from measurements.readings.points import Point
from measurements.readings.uncertainty import gauge_u_squared

COLDEST_C, HOTTEST_C = -40, 100


@dataclass(frozen=True)
class Taken:
    """A read and the calibration that stood on the day, None where none did or no gauge is named."""

    read: Read
    calibration: Calibration | None


def take(points: Sequence[Point], unit: str, gauge: Gauge | None, warmth: Warmth | None, day: date) -> Taken:
    """One query with a gauge, none without. Raises UnknownUnit, and OtherDimension for a gauge that measures something else."""
    read = Read(points, unit, warmth=warmth)
    if gauge is None:
        return Taken(read, None)
    ratio(gauge.unit, unit)
    standing = on_day(gauge, day)
    if standing.calibration is None:
        return Taken(replace(read, barred=standing.reason), None)
    if beyond := _beyond(standing, read):
        return Taken(replace(read, barred=beyond), standing.calibration)
    squared = gauge_u_squared(standing.calibration.expanded_u, gauge.resolution, gauge.unit, unit)
    return Taken(replace(read, u_squared=squared), standing.calibration)


def kept(reading: Reading) -> Read:
    """What a kept reading was judged from. Costs no query where its gauge and its calibration are loaded."""
    squared = Fraction(0)
    if reading.gauge and reading.calibration and not reading.gauge_is_barred:
        gauge = reading.gauge
        squared = gauge_u_squared(reading.calibration.expanded_u, gauge.resolution, gauge.unit, reading.unit)
    return Read(
        points=[Point(*point) for point in reading.points],
        unit=reading.unit,
        u_squared=squared,
        barred=reading.reason if reading.gauge_is_barred else "",
        warmth=warmth(reading.temperature, reading.part_coefficient, reading.gauge_coefficient),
    )


def warmth(temperature: str, part_coefficient: str, gauge_coefficient: str) -> Warmth | None:
    """None where no coefficients are given: then the temperature is kept and the values stand as read. Raises ReadingRefused."""
    celsius = _figure("Temperature", temperature)
    part = _figure("Coefficient of the part", part_coefficient)
    gauge = _figure("Coefficient of the gauge", gauge_coefficient)
    if celsius is not None and not COLDEST_C <= celsius <= HOTTEST_C:
        raise ReadingRefused(f"Temperature: {temperature} °C is no part on a bench. Write what the thermometer shows, in °C.")
    if part is None and gauge is None:
        return None
    if celsius is None or part is None or gauge is None:
        raise ReadingRefused("To refer a reading to 20 °C, give the temperature and the coefficients of the part and the gauge.")
    return Warmth(Fraction(celsius), Fraction(part), Fraction(gauge))


def _beyond(standing: OnDay, read: Read) -> str:
    """What the gauge showed counts here, whatever the temperature."""
    least, greatest = min(read.typed), max(read.typed)
    return reach(standing.facts, least, read.unit) or reach(standing.facts, greatest, read.unit)


def _figure(name: str, text: str) -> Decimal | None:
    try:
        return read_number(text) if text else None
    except MeasureError as error:
        raise ReadingRefused(f"{name}: {error}.") from None
