"""The magneto check: how far the speed falls on one magneto, and how unlike the two are."""

from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.figures import Exact, exact_not_negative, exact_positive


@dataclass(frozen=True)
class MagnetoCheck(Checked):
    """Fall of speed on each magneto alone, rpm; negative where the engine sped up."""

    left_drop: Fraction
    right_drop: Fraction

    @property
    def difference(self) -> Fraction:
        """How unlike the two drops are, rpm, never negative."""
        return abs(self.left_drop - self.right_drop)

    @property
    def greater_drop(self) -> Fraction:
        """The worse of the two, rpm."""
        return max(self.left_drop, self.right_drop)

    @property
    def live_lead_suspected(self) -> bool:
        """Whether a magneto alone shows no fall at all: a switch lead may be open and the magneto always live."""
        return min(self.left_drop, self.right_drop) <= 0


def magneto_check(both_rpm: Exact, left_rpm: Exact, right_rpm: Exact) -> MagnetoCheck:
    """The drops from speeds read on both magnetos, on the left alone and on the right alone.

    Units: rpm. Raises: BadFigure for a speed below zero, or zero on both. Source: common practice, no source.
    """
    both = exact_positive(both_rpm, "the speed on both magnetos")
    left = exact_not_negative(left_rpm, "the speed on the left magneto")
    return MagnetoCheck(both - left, both - exact_not_negative(right_rpm, "the speed on the right magneto"))
