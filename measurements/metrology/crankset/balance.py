"""Unbalance of a crank: the sum of its weights at their radii and angles, the couple they make, and what a grade allows."""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import SupportsFloat

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NothingGiven
from measurements.metrology.figures import real, real_not_negative, real_positive


@dataclass(frozen=True)
class Mass(Checked, not_negative=("weight", "radius")):
    """A weight on the crank: its radius and angle (degrees), and its station along the shaft, lengths in one unit."""

    name: str
    weight: float
    radius: float
    angle_deg: float
    station: float = 0.0


@dataclass(frozen=True)
class Unbalance(Checked, not_negative=("amount",)):
    """Amount (weight times radius, or times station for a couple) and the direction of its heavy side in degrees."""

    amount: float
    direction_deg: float


def static_unbalance(masses: Sequence[Mass]) -> Unbalance:
    """Where the crank would come to rest heavy side down, and by how much.

    Units: weight times length; degrees. Shape: at least one mass. Raises: NothingGiven, BadFigure for a negative weight or
    radius. Source: statics; ISO 21940 terms, from memory.
    """
    return _as_unbalance(sum((_vector(mass) for mass in _some(masses)), 0j))


def couple_about(masses: Sequence[Mass], station: SupportsFloat = 0) -> Unbalance:
    """The couple of all masses about a station: what shakes a crank that lies still on knife edges.

    Units: weight times length squared; degrees. Shape: at least one mass. Raises: as `static_unbalance`.
    Source: as `static_unbalance`.
    """
    origin = real(station, "the station")
    arms = ((real(mass.station, f"the station of {mass.name}") - origin) * _vector(mass) for mass in _some(masses))
    return _as_unbalance(sum(arms, 0j))


def weight_to_add(found: Unbalance, radius: SupportsFloat) -> Unbalance:
    """What to add at a radius to undo an unbalance, and at which angle; taken off, it goes on the heavy side instead.

    Units: the weight's; degrees. Raises: BadFigure for a radius of zero and below. Source: statics.
    """
    return Unbalance(found.amount / real_positive(radius, "the radius"), (found.direction_deg + 180) % 360)


def permissible_unbalance(grade_mm_s: SupportsFloat, rotor_kg: SupportsFloat, rpm: SupportsFloat) -> float:
    """The unbalance that a balance quality grade allows at a speed.

    Units: mm/s, kg and rpm in; g mm out. Raises: BadFigure for zero and below. Source: ISO 21940-11, from memory.
    """
    turning = real_positive(rpm, "the speed") * math.pi / 30
    return 1000 * real_positive(grade_mm_s, "the grade") * real_positive(rotor_kg, "the rotor's weight") / turning


def _some(masses: Sequence[Mass]) -> Sequence[Mass]:
    if not masses:
        raise NothingGiven("No weight was given: list what sits on the crank.")
    return masses


def _vector(mass: Mass) -> complex:
    moment = real_not_negative(mass.weight, mass.name) * real_not_negative(mass.radius, f"the radius of {mass.name}")
    return cmath.rect(moment, math.radians(real(mass.angle_deg, f"the angle of {mass.name}")))


def _as_unbalance(vector: complex) -> Unbalance:
    return Unbalance(abs(vector), math.degrees(cmath.phase(vector)) % 360)
