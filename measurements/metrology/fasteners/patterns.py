"""The order in which the fasteners of a circle or a rectangle are tightened, so that the joint closes evenly."""

from collections.abc import Iterable
from functools import cmp_to_key

from measurements.metrology.errors import BadFigure

Place = tuple[int, int]
MOST = 1000


def star(count: int) -> tuple[int, ...]:
    """Fasteners of a circle, numbered from 1 around it, each far from the one before.

    A count divisible by four goes in crosses of four, another even count in opposing pairs, an odd count by nearly half turns.
    Units: none. Raises: BadFigure for anything but a whole number from one to 1,000.
    Source: ASME PCC-1, legacy cross pattern (from memory) for multiples of four; else common practice, no source.
    """
    _whole(count, "The number of fasteners")
    if count % 4 == 0:
        quarter = count // 4
        return tuple(start + quarter * step for start in _skipping(quarter) for step in (0, 2, 1, 3))
    if count % 2 == 0:
        return tuple(number for pair in opposing_pairs(count) for number in pair)
    step = max(1, (count - 1) // 2)  # has no common divisor with an odd count, so every fastener is reached once
    return tuple(place * step % count + 1 for place in range(count))


def opposing_pairs(count: int) -> tuple[tuple[int, int], ...]:
    """Fasteners of a circle in pairs across it, each pair turned well away from the one before.

    Units: none. Raises: BadFigure for an odd count, or as `star`. Source: common practice, no source.
    """
    _whole(count, "The number of fasteners")
    if count % 2:
        raise BadFigure(f"{count} fasteners have no opposing pairs: use a star.")
    half = count // 2
    return tuple((start, start + half) for start in _skipping(half))


def spiral(rows: int, columns: int) -> tuple[Place, ...]:
    """Fasteners of a rectangle by row and column from 1, from the middle outward, ring by ring, clockwise from the top of each.

    Units: none. Raises: BadFigure as `star`. Source: common practice, no source.
    """
    _whole(rows, "The number of rows")
    _whole(columns, "The number of columns")
    offsets = [(2 * column - columns - 1, 2 * row - rows - 1) for row in range(1, rows + 1) for column in range(1, columns + 1)]
    ordered = sorted(offsets, key=lambda offset: (_ring(offset), cmp_to_key(_clockwise)(offset)))
    return tuple(((y + rows + 1) // 2, (x + columns + 1) // 2) for x, y in ordered)


def opposing_in_rectangle(rows: int, columns: int) -> tuple[Place, ...]:
    """Fasteners of a rectangle from the middle outward, each followed by the one across the middle from it.

    Units: none. Raises: BadFigure as `star`. Source: common practice, no source.
    """
    order: list[Place] = []
    for row, column in spiral(rows, columns):
        for place in ((row, column), (rows + 1 - row, columns + 1 - column)):
            if place not in order:
                order.append(place)
    return tuple(order)


def _skipping(count: int) -> Iterable[int]:
    """1 to count, by half of it at a time: 1 3 5 2 4; neighbours come late after each other."""
    step = max(1, count // 2)
    return [start for first in range(1, step + 1) for start in range(first, count + 1, step)]


def _ring(offset: Place) -> int:
    return max(abs(offset[0]) // 2, abs(offset[1]) // 2)


def _clockwise(first: Place, second: Place) -> int:
    """Which comes first clockwise from straight up, without an angle: half turns, then the sign of the cross product."""
    halves = [0 if x > 0 or (x == 0 and y <= 0) else 1 for x, y in (first, second)]
    if halves[0] != halves[1]:
        return halves[0] - halves[1]
    return first[1] * second[0] - first[0] * second[1]


def _whole(count: int, what: str) -> None:
    if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= MOST:
        raise BadFigure(f"{what} is a whole number from 1 to {MOST}.")
