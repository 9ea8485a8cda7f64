"""The piston of a plain connecting rod: how far it has come down, and how fast it moves."""

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import SupportsFloat

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import Exact, exact_not_negative, exact_positive, real, real_positive

HALVINGS = 60


@dataclass(frozen=True)
class SliderCrank(Checked, positive=("throw", "rod")):
    """Throw (half the stroke) and rod between centres, in one length; the cylinder's axis meets the shaft's."""

    throw: float
    rod: float

    def drop(self, crank_deg: SupportsFloat) -> float:
        """How far the piston is below top centre. Units: degrees from top centre in, the length out. Raises: BadFigure."""
        sine, cosine = self._turned(crank_deg)
        return self.throw * (1 - cosine) + self.rod - self._reach(sine)

    def velocity(self, crank_deg: SupportsFloat) -> float:
        """Rate of drop, downward positive. Units: degrees in, the length per radian of crank out. Raises: BadFigure."""
        sine, cosine = self._turned(crank_deg)
        return self.throw * sine * (1 + self.throw * cosine / self._reach(sine))

    def acceleration(self, crank_deg: SupportsFloat) -> float:
        """Rate of the velocity. Units: degrees in, the length per radian squared out. Raises: BadFigure."""
        sine, cosine = self._turned(crank_deg)
        reach, throw = self._reach(sine), self.throw
        obliquity = throw**2 * (cosine**2 - sine**2) / reach + throw**4 * (sine * cosine) ** 2 / reach**3
        return throw * cosine + obliquity

    def fastest(self) -> tuple[float, float]:
        """Where the piston is fastest on its way down, and how fast. Units: degrees, the length per radian. Raises nothing."""
        low, high = 0.0, 180.0
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self.acceleration(middle) > 0 else (low, middle)
        return low, self.velocity(low)

    def _turned(self, crank_deg: SupportsFloat) -> tuple[float, float]:
        angle = math.radians(real(crank_deg, "the crank angle"))
        return math.sin(angle), math.cos(angle)

    def _reach(self, sine: float) -> float:
        return math.sqrt(self.rod**2 - (self.throw * sine) ** 2)


def slider_crank(stroke: SupportsFloat, rod: SupportsFloat) -> SliderCrank:
    """A plain crank and rod.

    Units: one length. Raises: BadFigure for zero and below, and for a rod that does not reach past the throw.
    Source: geometry of the slider-crank.
    """
    throw, length = real_positive(stroke, "the stroke") / 2, real_positive(rod, "the rod")
    if length <= throw:
        raise BadFigure("The rod must be longer than half the stroke: measure it between the centres of its eyes.")
    return SliderCrank(throw, length)


def mean_piston_speed(stroke: Exact, rpm: Exact) -> Fraction:
    """Two strokes for every turn, exactly.

    Units: the unit of the stroke per minute. Raises: BadFigure. Source: definition.
    """
    return 2 * exact_positive(stroke, "the stroke") * exact_not_negative(rpm, "the speed")
