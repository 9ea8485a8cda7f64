"""How fast a reading rises while an engine runs."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from measurements.metrology.checked import Checked
from measurements.metrology.errors import MixedDimensions, NothingGiven
from measurements.metrology.figures import Exact, exact_all, same_length


@dataclass(frozen=True)
class Rise(Checked):
    """One stretch between two readings: when it began and ended, and its rate (negative where the reading falls)."""

    began: Fraction
    ended: Fraction
    rate: Fraction


def rises(times: Sequence[Exact], readings: Sequence[Exact]) -> tuple[Rise, ...]:
    """The rate over every stretch between neighbouring readings, exactly.

    Units: rate in the unit of the readings per unit of the times. Shape: two series of one length, at least two.
    Raises: MixedDimensions for other lengths or times that do not go forward, NothingGiven, BadFigure. Source: definition.
    """
    moments, values = exact_all(times, "the times"), exact_all(readings, "the readings")
    same_length(moments, values, "Times and readings")
    if len(moments) < 2:
        raise NothingGiven("A rise needs two readings at least: take another one later.")
    if any(later <= earlier for earlier, later in pairwise(moments)):
        raise MixedDimensions("The times do not go forward: put the readings in the order they were taken.")
    stretches = pairwise(zip(moments, values, strict=True))
    return tuple(Rise(began, ended, (after - before) / (ended - began)) for (began, before), (ended, after) in stretches)


def steepest(times: Sequence[Exact], readings: Sequence[Exact]) -> Rise:
    """The stretch over which the reading rises fastest; the first of equals.

    Units: as `rises`. Shape: as `rises`. Raises: as `rises`. Source: definition.
    """
    return max(rises(times, readings), key=lambda stretch: stretch.rate)
