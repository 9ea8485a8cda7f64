"""Taper has a sign: which end is the wider one is part of the answer."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import MeasureError, NothingGiven
from measurements.metrology.figures import Exact, same_length
from measurements.metrology.form.section import section


@dataclass(frozen=True)
class Taper(Checked, in_order=(("least", "greatest"),)):
    """Diameter at the second plane less that at the first, by direction: least, mean and greatest; positive widens."""

    least: Fraction
    mean: Fraction
    greatest: Fraction


def taper(planes: Mapping[str, Sequence[Exact]], first: str, second: str) -> Taper:
    """Signed taper from one named plane to another, direction by direction.

    Units: the unit of the readings. Shape: plane name to diameters, the same directions in the same order at both planes.
    Raises: NothingGiven when a plane was not read, MixedDimensions when directions differ in number, BadFigure as `section`.
    Source: TM 5-3805-262-34, 4-1 (taper of a journal); sign by common practice, no source.
    """
    near, far = _plane(planes, first), _plane(planes, second)
    same_length(near, far, f"Directions at {first} and {second}")
    start, end = section(near), section(far)
    steps = [Fraction(after) - Fraction(before) for before, after in zip(near, far, strict=True)]
    return Taper(min(steps), end.mean - start.mean, max(steps))


def choke(planes: Mapping[str, Sequence[Exact]], skirt: str, head: str) -> Taper:
    """How much narrower a barrel is at the head than at the skirt: positive when narrower at the head.

    Units: the unit of the readings. Shape: as `taper`. Raises: as `taper`. Source: TM 9-2815-200-35, p. 6-55.
    """
    return taper(planes, head, skirt)


def steepest(planes: Mapping[str, Sequence[Exact]], order: Sequence[str]) -> tuple[str, str, Fraction]:
    """The two planes, of those in the order given, whose mean diameters differ most, with the signed difference.

    Units: the unit of the readings. Shape: plane names along the axis, at least two. Raises: NothingGiven, as `taper`.
    Source: TM 5-3805-262-34, 4-1.
    """
    if len(order) < 2:
        raise NothingGiven("Taper needs at least two planes along the axis: read another.")
    means = {name: section(_plane(planes, name)).mean for name in order}
    pairs = [(a, b, means[b] - means[a]) for i, a in enumerate(order) for b in order[i + 1 :]]
    return max(pairs, key=lambda pair: abs(pair[2]))


def _plane(planes: Mapping[str, Sequence[Exact]], name: str) -> Sequence[Exact]:
    try:
        return planes[name]
    except KeyError:
        raise _missing(name) from None


def _missing(name: str) -> MeasureError:
    return NothingGiven(f"Plane {name} was not read: measure it before asking for taper.")
