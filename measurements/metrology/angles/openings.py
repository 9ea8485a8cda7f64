"""Openings round a circle: gaps of rings, a retaining ring's opening against the notch of its pin."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NothingGiven
from measurements.metrology.figures import Exact, exact
from measurements.metrology.held import hold
from measurements.metrology.limits import LimitRow
from measurements.metrology.verdicts import Judgement

TURN = 360


@dataclass(frozen=True)
class Separation(Checked):
    """The shorter way round between two openings, in degrees: 0 to 180."""

    first: str
    second: str
    degrees: Fraction


def separation(first_deg: Exact, second_deg: Exact) -> Fraction:
    """The shorter way round between two angles.

    Units: degrees, any turn. Raises: BadFigure. Source: definition.
    """
    way = abs(exact(first_deg, "the angle") - exact(second_deg, "the angle")) % TURN
    return min(way, TURN - way)


def round_the_circle(openings: Mapping[str, Exact]) -> tuple[Separation, ...]:
    """Openings next to one another on the circle, each with its neighbour, whatever the order they were given in.

    Units: degrees. Shape: name to angle, at least two. Raises: NothingGiven, BadFigure. Source: definition.
    """
    placed = sorted((exact(angle, name) % TURN, name) for name, angle in _at_least_two(openings).items())
    ring = [*placed, placed[0]] if len(placed) > 2 else placed
    return tuple(Separation(first, second, separation(one, other)) for (one, first), (other, second) in pairwise(ring))


def down_the_piston(openings: Mapping[str, Exact]) -> tuple[Separation, ...]:
    """Openings of rings next to one another on the piston, in the order given: a straight path for gas shows as a small angle.

    Units: degrees. Shape: name to angle from crown to skirt, at least two. Raises: NothingGiven, BadFigure.
    Source: definition; gaps evenly spread as in TM 10-3930-673-34, 3-16 (three rings, 120 degrees apart).
    """
    given = pairwise(_at_least_two(openings).items())
    return tuple(Separation(first, second, separation(one, other)) for (first, one), (second, other) in given)


def closest(openings: Mapping[str, Exact]) -> Separation:
    """The two openings closest together anywhere on the circle.

    Units: degrees. Shape: as `round_the_circle`. Raises: as `round_the_circle`. Source: definition.
    """
    return min(round_the_circle(openings), key=lambda pair: pair.degrees)


def judge_openings(openings: Mapping[str, Exact], row: LimitRow) -> Judgement:
    """The verdict on the least separation, decided exactly against a row whose unit is degrees.

    Units: degrees. Shape: as `round_the_circle`. Raises: as `round_the_circle` and `hold`. Source: as `verdicts.judge`.
    """
    return hold([closest(openings).degrees], row)


def _at_least_two(openings: Mapping[str, Exact]) -> Mapping[str, Exact]:
    if len(openings) < 2:
        raise NothingGiven("A separation needs two openings at least: read the other one too.")
    return openings
