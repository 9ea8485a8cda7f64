"""May this gauge decide this value on that day? Decided from plain facts, without the database or a clock."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from measurements.metrology.units import ratio


@dataclass(frozen=True)
class Calibrated:
    """One calibration as a reading needs it: from when to when it stands, and U at k = 2 in the gauge's unit."""

    done_on: date
    due_on: date
    expanded_u: str


@dataclass(frozen=True)
class Facts:
    """A gauge on paper: its range in `unit`, the day it was retired, and its calibrations that nobody corrected."""

    unit: str
    range_min: str
    range_max: str
    retired_on: date | None
    calibrations: tuple[Calibrated, ...]


@dataclass(frozen=True)
class Standing:
    """The calibration that counts, or why the gauge decides nothing."""

    calibration: Calibrated | None
    reason: str = ""


def standing_on(facts: Facts, day: date) -> Standing:
    """The latest calibration done by `day`, if it still stands then. The due day itself still counts."""
    if facts.retired_on and facts.retired_on <= day:
        return Standing(None, f"the gauge was retired on {facts.retired_on}")
    done = [each for each in facts.calibrations if each.done_on <= day]
    if not done:
        return Standing(None, "the gauge had no calibration")
    newest = max(done, key=lambda each: each.done_on)
    if newest.due_on < day:
        return Standing(None, f"the calibration of the gauge expired on {newest.due_on}")
    return Standing(newest)


def reach(facts: Facts, value: Fraction, unit: str) -> str:
    """Why a value in `unit` lies beyond the gauge's range; blank where it lies inside. Raises UnknownUnit, OtherDimension."""
    in_gauge = value * ratio(unit, facts.unit)
    if Fraction(facts.range_min) <= in_gauge <= Fraction(facts.range_max):
        return ""
    return f"the value lies beyond the gauge's range of {facts.range_min} to {facts.range_max} {facts.unit}"
