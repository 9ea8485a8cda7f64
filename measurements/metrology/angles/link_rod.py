"""The piston of a link rod: its rod swings on a pin in the master rod's big end, so its stroke and top centre are its own."""

import math
from dataclasses import dataclass
from typing import SupportsFloat

from measurements.metrology.angles.slider_crank import HALVINGS, SliderCrank
from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NoAnswer
from measurements.metrology.figures import real, real_not_negative, real_positive

WITHIN_DEG = 60.0


@dataclass(frozen=True)
class LinkRod(Checked, positive=("rod",), not_negative=("pin_radius",)):
    """Lengths in the unit of the master; angles in degrees in the direction of turning, from the master's cylinder.

    `pin_radius` and `pin_deg` place the link pin from the crankpin's centre, the angle taken from the master rod.
    Crank angles are those of the master's own crank, from its top centre.
    """

    master: SliderCrank
    pin_radius: float
    pin_deg: float
    rod: float
    cylinder_deg: float

    def height(self, crank_deg: SupportsFloat) -> float:
        """Piston pin to shaft along its own cylinder. Units: degrees in, the length out. Raises: BadFigure."""
        along, across, _, _ = self._pin(real(crank_deg, "the crank angle"))
        return along + math.sqrt(self.rod**2 - across**2)

    def velocity(self, crank_deg: SupportsFloat) -> float:
        """Rate of drop, downward positive. Units: degrees in, the length per radian of crank out. Raises: BadFigure."""
        _, across, along_rate, across_rate = self._pin(real(crank_deg, "the crank angle"))
        return -along_rate + across * across_rate / math.sqrt(self.rod**2 - across**2)

    def top_centre_deg(self) -> float:
        """The master's crank angle at this piston's top centre: near its cylinder's, seldom on it.

        Units: degrees. Raises: NoAnswer when no top centre lies within 60 degrees of the cylinder. Source: geometry.
        """
        return self._turning_point(self.cylinder_deg, +1)

    def bottom_centre_deg(self) -> float:
        """The master's crank angle at this piston's bottom centre.

        Units: degrees. Raises: NoAnswer when none lies within 60 degrees of opposite the cylinder. Source: geometry.
        """
        return self._turning_point(self.cylinder_deg + 180, -1)

    def drop(self, crank_deg: SupportsFloat) -> float:
        """How far the piston is below its own top centre. Units: degrees in, the length out. Raises: BadFigure, NoAnswer."""
        return self.height(self.top_centre_deg()) - self.height(crank_deg)

    def stroke(self) -> float:
        """From its own top to its own bottom centre, in the unit of the master. Raises: NoAnswer."""
        return self.drop(self.bottom_centre_deg())

    def _turning_point(self, near_deg: float, sense: int) -> float:
        low, high = near_deg - WITHIN_DEG, near_deg + WITHIN_DEG
        if sense * self.velocity(low) >= 0 or sense * self.velocity(high) <= 0:
            raise NoAnswer("The piston does not turn back near its cylinder: check the angles of link pin and cylinder.")
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if sense * self.velocity(middle) < 0 else (low, middle)
        return low

    def _pin(self, crank_deg: float) -> tuple[float, float, float, float]:
        """The link pin along and across the cylinder's axis, and the rates of both per radian of crank."""
        throw, turned = self.master.throw, math.radians(crank_deg)
        lean = -math.asin(throw * math.sin(turned) / self.master.rod)
        lean_rate = -throw * math.cos(turned) / (self.master.rod * math.cos(lean))
        axis = math.radians(self.cylinder_deg)
        crank, pin = turned - axis, lean + math.radians(self.pin_deg) - axis
        along = throw * math.cos(crank) + self.pin_radius * math.cos(pin)
        across = throw * math.sin(crank) + self.pin_radius * math.sin(pin)
        along_rate = -throw * math.sin(crank) - self.pin_radius * lean_rate * math.sin(pin)
        across_rate = throw * math.cos(crank) + self.pin_radius * lean_rate * math.cos(pin)
        return along, across, along_rate, across_rate


def link_rod(
    master: SliderCrank,
    pin_radius: SupportsFloat,
    pin_deg: SupportsFloat,
    rod: SupportsFloat,
    cylinder_deg: SupportsFloat,
) -> LinkRod:
    """A link rod of a radial's master rod.

    Units: lengths in the unit of the master, degrees. Raises: BadFigure for lengths of zero and below, and for a link rod that
    could not span the throw and the pin's radius. Source: geometry of the articulated rod.
    """
    radius, length = real_not_negative(pin_radius, "the radius of the link pin"), real_positive(rod, "the link rod")
    if length <= master.throw + radius:
        raise BadFigure("The link rod must be longer than throw and link pin radius together: measure it between its eyes.")
    return LinkRod(master, radius, real(pin_deg, "the angle of the link pin"), length, real(cylinder_deg, "the cylinder's angle"))
