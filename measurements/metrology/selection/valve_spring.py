"""The load of a spring at a length, exactly, from two points, from its rate, or from its wire."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.figures import Exact, exact_not_negative, exact_positive
from measurements.metrology.held import hold
from measurements.metrology.limits import LimitRow
from measurements.metrology.verdicts import Judgement


@dataclass(frozen=True)
class Spring(Checked, positive=("free_length", "rate")):
    """Free length and rate (load per length) of a spring of even rate."""

    free_length: Fraction
    rate: Fraction

    def load_at(self, length: Exact) -> Fraction:
        """Load at a length up to the free one, in the unit of the rate's load. Raises: BadFigure."""
        shortened = self.free_length - exact_positive(length, "the length")
        if shortened < 0:
            raise BadFigure("The length is beyond the free length, where the spring carries nothing: read it again.")
        return shortened * self.rate

    def length_at(self, load: Exact) -> Fraction:
        """Length under a load. Raises: BadFigure, also when the load would press the spring to nothing."""
        length = self.free_length - exact_not_negative(load, "the load") / self.rate
        if length <= 0:
            raise BadFigure("No spring of this rate carries that load: check the load and its unit.")
        return length


def from_two_points(points: Mapping[Exact, Exact]) -> Spring:
    """The spring through two loads read at two lengths.

    Units: one length, one load. Shape: length to load, exactly two. Raises: NothingGiven for another number of points,
    BadFigure when the shorter spring does not push harder. Source: Hooke's law.
    """
    if len(points) != 2:
        raise NothingGiven(f"A rate needs the load at two lengths: {len(points)} given.")
    read = sorted((exact_positive(at, "a length"), exact_not_negative(load, "a load")) for at, load in points.items())
    (short, more), (long, less) = read
    if more <= less or long == short:
        raise BadFigure("A spring pushes harder the shorter it is: check which load belongs to which length.")
    rate = (more - less) / (long - short)
    return Spring(long + less / rate, rate)


def from_free_length(free_length: Exact, length: Exact, load: Exact) -> Spring:
    """The spring of a free length that carries a load at a shorter one.

    Units: one length, one load. Raises: BadFigure. Source: Hooke's law.
    """
    return from_two_points({exact_positive(free_length, "the free length"): 0, exact_positive(length, "the length"): load})


def rate_of_wire(wire: Exact, mean_diameter: Exact, active_coils: Exact, shear_modulus: Exact) -> Fraction:
    """Rate of a helical spring from its round wire: d^4 G / (8 D^3 N).

    Units: one length, modulus as load per length squared; the rate as load per length. Raises: BadFigure for zero and below,
    and for a wire no thinner than its coil. Source: Shigley, helical springs.
    """
    thick, coil = exact_positive(wire, "the wire"), exact_positive(mean_diameter, "the coil")
    if thick >= coil:
        raise BadFigure("The wire must be thinner than its coil: check both diameters.")
    stiffness = thick**4 * exact_positive(shear_modulus, "the shear modulus")
    return stiffness / (8 * coil**3 * exact_positive(active_coils, "the active coils"))


def judge_load(load: Exact, read_at: Exact, stated_length: Exact, rate: Exact, row: LimitRow) -> Judgement:
    """The verdict on a load read a little off the stated length, first moved to that length by the spring's rate.

    Units: one length; load in the row's unit. Raises: BadFigure and as `hold`. Source: Hooke's law; as `verdicts.judge`.
    """
    off = exact_positive(read_at, "the length read at") - exact_positive(stated_length, "the stated length")
    return hold([exact_not_negative(load, "the load") + off * exact_positive(rate, "the rate")], row)
