"""What follows from one reading: least, greatest, mean, out-of-round and signed taper, each by a row of its own."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from measurements.judge.lines import Answer
from measurements.metrology.errors import NothingGiven
from measurements.metrology.limits import LimitRow
from measurements.readings.judging import Read, answer, found

OUT_OF_ROUND, TAPER = "out-of-round", "taper"
DIFFERENCES = frozenset({OUT_OF_ROUND, TAPER})
Planes = Mapping[str, Mapping[str, Fraction]]


def judge_derived(row: LimitRow, quantity: str, planes: Sequence[str], read: Read) -> Answer:
    """The verdict on `quantity` of what was read at `planes` (empty: at all). Raises MeasureError.

    Out-of-round is that of the worst plane. Taper runs from the first plane to the second in each direction, positive where
    the part widens; the least and the greatest of the directions are its two ends.
    """
    ends = _ends(quantity, at_planes(read, row.unit, planes), planes)
    mean = sum(ends, Fraction(0)) / len(ends)
    figures = found(row, [read], min(ends), max(ends), mean)
    return answer(row, figures, derived_u_squared(quantity, read.u_squared_in(row.unit)), read.barred)


def derived_u_squared(quantity: str, u_squared: Fraction) -> Fraction:
    """U² of the derived value: twice that of the reading for a difference of two values (JCGM 100, 5.1.2).

    A mean keeps the whole of it: the calibration's part is common to all points, so averaging does not lessen it.
    """
    return 2 * u_squared if quantity in DIFFERENCES else u_squared


def at_planes(read: Read, unit: str, planes: Sequence[str]) -> dict[str, dict[str, Fraction]]:
    """Plane to direction to value in `unit`, the named planes in their order. Raises NothingGiven for a plane not read."""
    every: dict[str, dict[str, Fraction]] = {}
    for point, value in zip(read.points, read.values(unit), strict=True):
        every.setdefault(point.plane, {})[point.direction] = value
    for plane in planes:
        if plane not in every:
            raise NothingGiven(f"plane {plane} was not read: read it first")
    return {plane: every[plane] for plane in planes} if planes else every


def _ends(quantity: str, read: Planes, planes: Sequence[str]) -> list[Fraction]:
    values = [value for plane in read.values() for value in plane.values()]
    if quantity == TAPER:
        return _tapers(read, planes)
    if quantity == OUT_OF_ROUND:
        return [_out_of_round(read)]
    if quantity == "mean":
        return [sum(values, Fraction(0)) / len(values)]
    return [min(values) if quantity == "least" else max(values)]


def _tapers(read: Planes, planes: Sequence[str]) -> list[Fraction]:
    if len(planes) != 2:
        raise NothingGiven("taper runs from one plane to another: the row must name the two")
    first, second = (read[plane] for plane in planes)
    both = [direction for direction in first if direction in second]
    if not both:
        raise NothingGiven("the two planes were not read in one direction: read both alike")
    return [second[direction] - first[direction] for direction in both]


def _out_of_round(read: Planes) -> Fraction:
    if any(len(plane) < 2 for plane in read.values()):
        raise NothingGiven("out-of-round needs two directions at each plane: read another")
    return max(max(plane.values()) - min(plane.values()) for plane in read.values())
