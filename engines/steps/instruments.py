"""A wrench or a gauge is taken from the register, and refused where it proves nothing: retired, lapsed, or out of its range."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from fractions import Fraction

from django import forms
from django.utils import timezone

from engines.steps.work import StepRefused
from measurements.gauges.models import Gauge
from measurements.gauges.queries import gauges, on_day
from measurements.metrology.errors import MeasureError
from measurements.metrology.fasteners.wrench import Wrench, faults
from measurements.metrology.numbers import read_number
from measurements.metrology.units import dimension_of, ratio


@dataclass(frozen=True)
class Instrument:
    """One of the register on a day: its range, and what its calibration rests on."""

    number: str
    unit: str
    least: Decimal
    greatest: Decimal
    good_until: date
    certificate: str
    on: date

    def check(self, figure: Fraction) -> None:
        """Raises StepRefused where the figure, in its own unit, lies outside the range in which it may be used."""
        found = faults(Wrench(self.least, self.greatest, self.good_until), figure, self.on)
        if found:
            reach = f"{self.least:f} to {self.greatest:f} {self.unit}"
            raise StepRefused(f"{self.number}: {', '.join(found)} ({reach}). Take one that reaches.")

    def check_shown(self, figure: Fraction) -> None:
        """The same of a figure that it shows, which may be nought or below."""
        if not self.least <= figure <= self.greatest:
            reach = f"{self.least:f} to {self.greatest:f} {self.unit}"
            raise StepRefused(
                f"{self.number} cannot show that: it reaches from {reach}. Read it again, or take one that reaches."
            )


def instrument(number: str, at: datetime) -> Instrument:
    """Raises StepRefused where the register has no such number, or it may not be used on that day."""
    gauge = gauges().filter(number=number).first()
    if gauge is None:
        raise StepRefused(f"The register has no “{number}”. Choose one that is on it.")
    day = timezone.localdate(at)
    standing = on_day(gauge, day)
    calibration = standing.calibration
    if calibration is None:
        raise StepRefused(f"{number} cannot be used: {standing.reason}. Take another.")
    least, greatest = read_number(gauge.range_min), read_number(gauge.range_max)
    return Instrument(number, gauge.unit, least, greatest, calibration.due_on, calibration.certificate_number, day)


def instrument_field(label: str, unit: str = "") -> forms.ChoiceField:
    """Every one of the register in use that measures what the unit does, without a unit all of them; and none chosen."""
    found = [each for each in gauges().filter(retired_at__isnull=True) if not unit or _measures(each, unit)]
    return forms.ChoiceField(label=label, choices=[("", "choose"), *((each.number, str(each)) for each in found)])


def in_unit(figure: Decimal | Fraction, unit: str, wanted: str) -> Fraction:
    return Fraction(figure) * ratio(unit, wanted)


def _measures(gauge: Gauge, unit: str) -> bool:
    try:
        return dimension_of(gauge.unit) == dimension_of(unit)
    except MeasureError:
        return False
