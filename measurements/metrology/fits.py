"""The fit of two mates. Positive is loose (L), negative is tight (T)."""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, BadLimits, NotANumber
from measurements.metrology.figures import Exact, check_whole, exact, exact_positive, ordered
from measurements.metrology.numbers import plain_ratio, read_number

LOOSE_OR_TIGHT = re.compile(r"([0-9.]+)\s*([LT])")


class Ends(NamedTuple):
    """The two ends of a fit, in the unit and scale of its mates."""

    tightest: int
    loosest: int


@dataclass(frozen=True)
class Fit(Checked):
    """The tightest and the loosest that two mates come to, exact, in their unit; negative is tight."""

    tightest: Fraction
    loosest: Fraction

    @property
    def mean(self) -> Fraction:
        """Half way between the two, in the unit of the mates."""
        return (self.tightest + self.loosest) / 2

    @property
    def kind(self) -> str:
        """Clearance, interference, or transition where both can come about."""
        if self.tightest >= 0:
            return "clearance"
        return "interference" if self.loosest <= 0 else "transition"


def fit_of_limits(outer_least: Exact, outer_greatest: Exact, inner_least: Exact, inner_greatest: Exact) -> Fit:
    """The worst and the best case of a hole and a shaft within their limits.

    Units: one length. Raises: BadLimits for reversed limits, BadFigure for a size of zero and below.
    Source: definition; TM 5-6115-545-34, table 1-2 prints such fits beside the limits of the parts.
    """
    ordered(outer_least, outer_greatest, "the limits of the outer part")
    ordered(inner_least, inner_greatest, "the limits of the inner part")
    hole = [exact_positive(size, "the size of the outer part") for size in (outer_least, outer_greatest)]
    shaft = [exact_positive(size, "the size of the inner part") for size in (inner_least, inner_greatest)]
    return Fit(hole[0] - shaft[1], hole[1] - shaft[0])


def loose_or_tight(clearance: Exact) -> str:
    """A clearance as limit tables print it: 0.0005 is `0.0005L`, -0.0003 is `0.0003T`; size for size is `0`.

    Units: that of the clearance. Raises: BadFigure. Source: TM 9-2520-234-35, paragraph 235.
    """
    value = exact(clearance, "the clearance")
    shown = plain_ratio(abs(value).numerator, value.denominator)
    return shown + ("L" if value > 0 else "T" if value < 0 else "")


def read_loose_or_tight(text: str) -> Fraction:
    """`0.0003T` is -0.0003, `0.0005L` is 0.0005; without a letter only zero is clear.

    Units: that of the figure. Raises: NotANumber for a figure without its letter or in any other form.
    Source: TM 9-2520-234-35, paragraph 235.
    """
    match = LOOSE_OR_TIGHT.fullmatch(text.strip())
    if match:
        return Fraction(read_number(match[1])) * (1 if match[2] == "L" else -1)
    if read_number(text.strip()) == 0:
        return Fraction()
    raise NotANumber(f"“{text[:40]}” does not say whether it is loose or tight: write L or T behind it, such as 0.0005L")


def fit_ends(outer_least: int, outer_greatest: int, inner_least: int, inner_greatest: int) -> Ends:
    """From smallest outer - largest inner to largest outer - smallest inner, of what was read on each.

    Units: whole numbers, all four at one unit and scale. Raises: BadFigure for other numbers, BadLimits for reversed ones.
    Source: definition; TM 5-6115-545-34, table 1-2.
    """
    check_whole((outer_least, outer_greatest, inner_least, inner_greatest))
    if outer_least > outer_greatest or inner_least > inner_greatest:
        raise BadLimits("The least and the greatest reading of a part are reversed: read them again.")
    return Ends(tightest=outer_least - inner_greatest, loosest=outer_greatest - inner_least)


def combined_u_squared(outer_u: int, inner_u: int) -> int:
    """The square of the fit's expanded uncertainty, mates independent: the sum of the squares.

    0 is *not stated*, for a mate and so for the fit.

    Units: whole numbers at the fit's scale, both for the same k. Raises: BadFigure for other and for negative numbers.
    Source: JCGM 100, 5.1.2.
    """
    check_whole((outer_u, inner_u))
    if outer_u < 0 or inner_u < 0:
        raise BadFigure("An uncertainty is negative: write U at k = 2, or 0 where none is stated.")
    return outer_u * outer_u + inner_u * inner_u if outer_u and inner_u else 0
