"""What was read of one feature at each visit, and which of it still counts: rework starts the story anew."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_not_negative


@dataclass(frozen=True)
class Visit(Checked, not_negative=("hours", "standard")):
    """One visit: hours run, value found, value left after rework (None: left as found), standard uncertainty of the reading.

    Hours count from one origin throughout; values and uncertainty are in one unit. No uncertainty is *not stated*.
    """

    hours: Exact
    found: Exact
    left: Exact | None = None
    standard: Exact | None = None


@dataclass(frozen=True)
class Point(Checked, not_negative=("hours", "standard")):
    """A value at hours run, with its standard uncertainty or None; hours, and the unit of the readings."""

    hours: Fraction
    value: Fraction
    standard: Fraction | None


def since_rework(visits: Sequence[Visit]) -> tuple[Point, ...]:
    """The points that describe the surface as it is now: from the last rework on, which counts with the value it left.

    Units: hours, and one unit of the readings. Shape: visits in the order of their hours, at least one. Raises: NothingGiven when
    there is none, BadFigure for hours that are negative, equal or run backwards.
    Source: definition; a reworked surface wears anew.
    """
    if not visits:
        raise NothingGiven("No visit is known: wear needs what was read at two.")
    points = [_point(visit) for visit in visits]
    for before, after in pairwise(points):
        if after.hours <= before.hours:
            raise BadFigure("Hours do not rise from visit to visit: check them against the logbook.")
    start = max((index for index, visit in enumerate(visits) if visit.left is not None), default=0)
    return tuple(points[start:])


def _point(visit: Visit) -> Point:
    value = exact(visit.found, "the value found") if visit.left is None else exact(visit.left, "the value left")
    standard = None if visit.standard is None else exact_not_negative(visit.standard, "the standard uncertainty")
    return Point(exact_not_negative(visit.hours, "the hours"), value, standard)
