"""May this torque wrench be used for this value today?"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, MixedDimensions, NothingGiven
from measurements.metrology.figures import Exact, exact_not_negative, exact_positive, ordered


class Fault(StrEnum):
    """Why not."""

    NOT_CALIBRATED = "never calibrated"
    LAPSED = "calibration has lapsed"
    MISUSED = "dropped or overloaded since calibration"
    BELOW_RANGE = "value below the usable range"
    ABOVE_RANGE = "value above the usable range"


@dataclass(frozen=True)
class Wrench(Checked, not_negative=("usable_from",), in_order=(("usable_from", "usable_to"),)):
    """A wrench: its usable range in one torque unit, last day of its calibration (None: never), and misuse since."""

    usable_from: Exact
    usable_to: Exact
    good_until: date | None
    misused: bool = False


@dataclass(frozen=True)
class Deviation(Checked):
    """One calibration point: how far the wrench shows from what it gives, as a share of what it gives, and whether within."""

    indicated: Fraction
    given: Fraction
    share: Fraction
    within: bool


def usable_range(full_scale: Exact, from_share: Exact, to_share: Exact = 1) -> tuple[Fraction, Fraction]:
    """The part of a scale whose accuracy is stated.

    Units: torque; shares of full scale, from 0 to 1. Raises: BadLimits for reversed shares, BadFigure.
    Source: TM 1-1500-204-23-9, table 8-1 (20 percent of full scale to full scale); the shares are data.
    """
    ordered(from_share, to_share, "the shares of full scale")
    low, high = exact_not_negative(from_share, "the lower share"), exact_positive(to_share, "the upper share")
    if high > 1:
        raise BadFigure("No wrench is used beyond its full scale: give a share up to 1.")
    whole = exact_positive(full_scale, "full scale")
    return low * whole, high * whole


def faults(wrench: Wrench, setting: Exact, on: date) -> tuple[Fault, ...]:
    """Everything that stands against using a wrench for a setting on a day; empty when it may be used.

    Units: one torque unit. Raises: BadLimits for a reversed range, BadFigure. Source: AC 43.13-1B, 7-40 (calibrated at intervals
    and after a drop or abuse); TM 1-1500-204-23-9, table 8-1 (usable range).
    """
    ordered(wrench.usable_from, wrench.usable_to, "the usable range")
    low, high = exact_not_negative(wrench.usable_from, "the usable range"), exact_positive(wrench.usable_to, "the usable range")
    value = exact_positive(setting, "the setting")
    against = (
        (Fault.NOT_CALIBRATED, wrench.good_until is None),
        (Fault.LAPSED, wrench.good_until is not None and on > wrench.good_until),
        (Fault.MISUSED, wrench.misused),
        (Fault.BELOW_RANGE, value < low),
        (Fault.ABOVE_RANGE, value > high),
    )
    return tuple(fault for fault, holds in against if holds)


def deviations(points: Sequence[tuple[Exact, Exact]], most_share: Exact) -> tuple[Deviation, ...]:
    """Calibration of a wrench, point by point: (what it indicates, what the reference says it gives).

    Units: one torque unit; the greatest deviation as a share of what it gives, such as 0.04. Shape: at least one point.
    Raises: NothingGiven, BadFigure. Source: ISO 6789 (from memory), deviation = (indicated - given) / given.
    """
    if not points:
        raise NothingGiven("No calibration point was given: read the wrench against its reference.")
    if any(len(point) != 2 for point in points):
        raise MixedDimensions("A point is what the wrench indicates and what the reference says: give both.")
    most = exact_not_negative(most_share, "the greatest deviation")
    found = [(exact_positive(shown, "the indicated torque"), exact_positive(true, "the reference")) for shown, true in points]
    return tuple(Deviation(shown, true, (shown - true) / true, abs(shown - true) <= most * true) for shown, true in found)
