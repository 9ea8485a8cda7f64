"""A fit by its designation: the limits of both mates, and how tight and how loose they come."""

import re
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import Exact, exact_positive
from measurements.metrology.iso286.deviations import hole_deviations, shaft_deviations

CLASS = re.compile(r"([A-Za-z]{1,2})([0-9]{1,2})")


@dataclass(frozen=True)
class StandardFit(Checked):
    """Hole and shaft limits in mm (least, greatest); tightest and loosest clearance in mm, negative where tight."""

    hole: tuple[Fraction, Fraction]
    shaft: tuple[Fraction, Fraction]

    @property
    def tightest(self) -> Fraction:
        """Least hole less greatest shaft, mm."""
        return self.hole[0] - self.shaft[1]

    @property
    def loosest(self) -> Fraction:
        """Greatest hole less least shaft, mm."""
        return self.hole[1] - self.shaft[0]

    @property
    def kind(self) -> str:
        """Clearance, interference or transition."""
        if self.tightest >= 0:
            return "clearance"
        return "interference" if self.loosest <= 0 else "transition"


def standard_fit(nominal_mm: Exact, hole: str, shaft: str) -> StandardFit:
    """The fit of two classes, such as H7 and g6, on a nominal size.

    Units: mm. Raises: NoAnswer for a class that is not in the tables or not well formed, BadFigure. Source: ISO 286-1, from
    memory.
    """
    size = exact_positive(nominal_mm, "the nominal size")
    of_hole = hole_deviations(size, *_split(hole))
    of_shaft = shaft_deviations(size, *_split(shaft))
    return StandardFit(_limits(size, of_hole), _limits(size, of_shaft))


def _limits(size: Fraction, deviations: tuple[int, int]) -> tuple[Fraction, Fraction]:
    lower, upper = deviations
    return size + Fraction(lower, 1000), size + Fraction(upper, 1000)


def _split(designation: str) -> tuple[str, int]:
    match = CLASS.fullmatch(designation)
    if not match:
        raise NoAnswer(f"{designation!r} is not a tolerance class: write a letter and a grade, such as H7.")
    return match[1], int(match[2])
