"""How much to file off a ring's end, and what another bore does to its gap."""

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import SupportsFloat

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import Exact, exact_not_negative, ordered, real_not_negative, real_positive
from measurements.metrology.numbers import plain_ratio


@dataclass(frozen=True)
class Filing(Checked, not_negative=("least",), in_order=(("least", "greatest"),)):
    """Metal to take off the ends in all, in the unit of the gap: zero where the gap is already wide enough."""

    least: Fraction
    greatest: Fraction


def filing(gap: Exact, low: Exact, high: Exact) -> Filing:
    """What to file off a ring whose gap was read in the bore it will run in.

    Units: one length. Raises: BadLimits, BadFigure; NoAnswer when the gap is too wide: metal cannot be put back.
    Source: arithmetic.
    """
    ordered(low, high, "the limits of the gap")
    read = exact_not_negative(gap, "the ring gap")
    least, greatest = exact_not_negative(low, "the least gap"), exact_not_negative(high, "the greatest gap")
    if read > greatest:
        over = plain_ratio((read - greatest).numerator, (read - greatest).denominator)
        raise NoAnswer(f"The gap is {over} wider than allowed, and metal cannot be put back: take another ring.")
    return Filing(max(Fraction(), least - read), greatest - read)


def gap_in_bore(gap: SupportsFloat, read_in: SupportsFloat, bore: SupportsFloat) -> float:
    """The gap the same ring has in another bore: the circumference grows by pi times the diameter.

    Units: one length. Raises: BadFigure; NoAnswer when the ends would butt. Source: geometry of the circle.
    """
    grown = math.pi * (real_positive(bore, "the bore") - real_positive(read_in, "the bore it was read in"))
    wide = real_not_negative(gap, "the ring gap") + grown
    if wide < 0:
        raise NoAnswer("The ends would butt in that bore: file the ring, or take another one.")
    return wide
