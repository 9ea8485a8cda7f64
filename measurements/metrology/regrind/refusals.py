"""Why a surface cannot take a class, as values; the sentence is made from them."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.numbers import plain_ratio


class Reason(StrEnum):
    """Why not. The first two tell a worn surface from a bowed or displaced one."""

    WORN = "worn beyond what cleans up"
    BOWED = "would clean up but for its run-out"
    TOO_LITTLE_ROOM = "cleans up but leaves the grinder too little room"
    NEEDS_METAL_OFF = "not yet down to this class, which is not ground to"
    BEYOND_USE = "worn beyond use in this class, which is not ground to"
    OUT_OF_ROUND = "out of round beyond its limit"
    TAPERED = "tapered beyond its limit"
    NOT_AVAILABLE = "class cannot be had"
    RUN_OUT = "run-out beyond its limit"
    NO_CLASS = "no class left"


@dataclass(frozen=True)
class Refusal(Checked):
    """One surface, one class (blank when it is about none), the reason, and by how much it is missed, in the surface's unit."""

    surface: str
    size_class: str
    reason: Reason
    by: Fraction = Fraction(0)

    @property
    def sentence(self) -> str:
        """The refusal in words."""
        amount = f" by {plain_ratio(self.by.numerator, self.by.denominator)}" if self.by else ""
        place = f", class {self.size_class}" if self.size_class else ""
        return f"{self.surface}{place}: {self.reason}{amount}."
