"""Standard uncertainties from what is known: a certificate, a resolution, repeats, a tolerance, a temperature."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import stdev
from typing import SupportsFloat

from measurements.metrology.checked import Checked
from measurements.metrology.figures import real, real_all, real_not_negative, real_positive, whole_number

MOST_AVERAGED = 1_000_000


@dataclass(frozen=True)
class Component(Checked, not_negative=("standard",), positive=("degrees",), endless=("degrees",)):
    """One contribution: name, standard uncertainty in its own unit, sensitivity (result per unit), degrees of freedom."""

    name: str
    standard: float
    sensitivity: float = 1.0
    degrees: float = math.inf

    @property
    def contribution(self) -> float:
        """Standard uncertainty in the unit of the result."""
        return abs(self.sensitivity) * self.standard


def from_certificate(name: str, expanded: SupportsFloat, coverage_factor: SupportsFloat, degrees: float = math.inf) -> Component:
    """U and k of a calibration certificate.

    Units: the unit of U. Raises: BadFigure for a negative U or a factor of zero and below. Source: JCGM 100, 4.3.3.
    """
    standard = real_not_negative(expanded, name) / real_positive(coverage_factor, "the coverage factor")
    return Component(name, standard, degrees=degrees)


def rectangular(name: str, half_width: SupportsFloat, sensitivity: SupportsFloat = 1, degrees: float = math.inf) -> Component:
    """Equally likely anywhere within plus or minus a half width.

    Units: the unit of the half width. Raises: BadFigure. Source: JCGM 100, 4.3.7.
    """
    return Component(name, real_not_negative(half_width, name) / math.sqrt(3), real(sensitivity), degrees)


def arcsine(name: str, half_width: SupportsFloat, sensitivity: SupportsFloat = 1) -> Component:
    """A swing between two extremes, such as room temperature under a thermostat.

    Units: the unit of the half width. Raises: BadFigure. Source: JCGM 100, H.1.3.4.
    """
    return Component(name, real_not_negative(half_width, name) / math.sqrt(2), real(sensitivity))


def triangular(name: str, half_width: SupportsFloat, sensitivity: SupportsFloat = 1) -> Component:
    """More likely near the middle than at the ends.

    Units: the unit of the half width. Raises: BadFigure. Source: JCGM 100, 4.3.9.
    """
    return Component(name, real_not_negative(half_width, name) / math.sqrt(6), real(sensitivity))


def resolution(name: str, step: SupportsFloat) -> Component:
    """The last digit or graduation: step over the root of twelve.

    Units: the unit of the step. Raises: BadFigure. Source: JCGM 100, F.2.2.1.
    """
    return Component(name, real_not_negative(step, name) / math.sqrt(12))


def repeatability(name: str, readings: Sequence[SupportsFloat], averaged: int = 1) -> Component:
    """Standard deviation of repeats, for the mean of so many of them, with n - 1 degrees of freedom.

    Units: the unit of the readings. Shape: at least two readings. Raises: NothingGiven, BadFigure. Source: JCGM 100, 4.2.
    """
    values = real_all(readings, name, at_least=2)
    return Component(
        name, stdev(values) / math.sqrt(whole_number(averaged, "The number averaged", 1, MOST_AVERAGED)), degrees=len(values) - 1
    )


def temperature(
    name: str, length: SupportsFloat, coefficient_difference: SupportsFloat, half_width_k: SupportsFloat
) -> Component:
    """A temperature known to within plus or minus so many kelvin, acting on part and gauge of different metals.

    Units: length in any unit, coefficient per kelvin, kelvin. Raises: BadFigure. Source: JCGM 100, H.1 (model).
    """
    sensitivity = real_positive(length, "the length") * real(coefficient_difference, "the coefficient")
    return rectangular(name, half_width_k, sensitivity)
