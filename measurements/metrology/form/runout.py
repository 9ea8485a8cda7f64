"""Run-out by indicator: on centres, in vee blocks, and the bow of a shaft held at its ends."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import Exact, exact_all, exact_not_negative, real, real_all


@dataclass(frozen=True)
class Throw(Checked, not_negative=("amount",)):
    """Eccentricity of a station: amount in the unit of the readings, and direction of the high side in degrees."""

    amount: float
    direction_deg: float

    @property
    def indicated(self) -> float:
        """Total indicator reading that this eccentricity alone gives on centres: twice the amount."""
        return 2 * self.amount


def runout(indicator: Sequence[Exact]) -> Fraction:
    """Total indicator reading of one turn: greatest less least.

    Units: the unit of the readings. Shape: readings around one turn, at least one. Raises: NothingGiven, BadFigure.
    Source: definition (ISO 1101 circular run-out, from memory).
    """
    readings = exact_all(indicator, "the indicator readings")
    return max(readings) - min(readings)


def eccentricity(total_indicator_reading: Exact) -> Fraction:
    """Distance of the surface's centre from the axis of turning, of a surface that is itself round.

    Units: the unit of the reading. Raises: BadFigure for a negative reading. Source: definition, half the total reading.
    """
    return exact_not_negative(total_indicator_reading, "the total indicator reading") / 2


def throw(indicator: Sequence[float]) -> Throw:
    """The once-a-turn part of readings at equal angles: form errors of two lobes and more drop out.

    Units: the unit of the readings; degrees. Shape: at least three readings, equally spaced, from zero degrees.
    Raises: NothingGiven, BadFigure. Source: discrete Fourier sum, first harmonic.
    """
    readings = real_all(indicator, "the indicator readings", at_least=3)
    turns = (cmath.rect(value, 2 * math.pi * step / len(readings)) for step, value in enumerate(readings))
    first = 2 * sum(turns, 0j) / len(readings)
    return Throw(abs(first), math.degrees(cmath.phase(first)) % 360)


def bow(near: Throw, middle: Throw, far: Throw, share: float = 0.5) -> Throw:
    """Throw of a middle station against the line through two end stations: what a bent shaft shows wherever it is held.

    Units: those of the throws. `share` is where the middle lies between near (0) and far (1).
    Raises: BadFigure when the share is outside 0 to 1. Source: common practice, no source (straight line between supports).
    """
    part = real(share, "the share of the length")
    if not 0 <= part <= 1:
        raise BadFigure("The middle station must lie between the two ends: give a share from 0 to 1.")
    line = (1 - part) * _vector(near) + part * _vector(far)
    left = _vector(middle) - line
    return Throw(abs(left), math.degrees(cmath.phase(left)) % 360)


def _vector(station: Throw) -> complex:
    return cmath.rect(station.amount, math.radians(station.direction_deg))
