"""Firing orders: what the layout of the cylinders allows, and when each cylinder fires."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from measurements.metrology.errors import BadFigure, NothingGiven

CYCLE_DEG = 720
MOST_CYLINDERS = 36


def single_row_order(cylinders: int) -> tuple[int, ...]:
    """The order of a single-row radial: every other cylinder in the direction of turning, twice round.

    Units: none. Raises: BadFigure unless the number is odd, from 3. Source: FAA powerplant handbook, firing order.
    """
    if not _whole(cylinders) or cylinders % 2 == 0 or not 3 <= cylinders <= MOST_CYLINDERS:
        raise BadFigure(f"A row of a radial has an odd number of cylinders, three at least: {_shown(cylinders)} is not one.")
    return tuple(2 * turn % cylinders + 1 for turn in range(cylinders))


def double_row_order(cylinders: int) -> tuple[int, ...]:
    """The order of a double-row radial numbered round both rows in turn: from one row to the other every time.

    Units: none. Raises: BadFigure unless half the number is odd, from 3. Source: FAA powerplant handbook: 14 cylinders, add 9
    or subtract 5; 18 cylinders, add 11 or subtract 7.
    """
    half = cylinders // 2 if _whole(cylinders) else 0
    if half % 2 == 0 or half < 3 or cylinders != 2 * half or cylinders > MOST_CYLINDERS:
        raise BadFigure(f"A double-row radial has two rows of an odd number of cylinders: {_shown(cylinders)} cannot be.")
    return tuple((half + 2) * turn % cylinders + 1 for turn in range(cylinders))


def faults_of_radial(order: Sequence[int], rows: int = 1) -> tuple[str, ...]:
    """What is wrong with the order of a radial, one sentence each; empty when it is right, whichever cylinder it starts with.

    Units: none. Shape: cylinder numbers in firing order. Raises: NothingGiven, BadFigure as the orders. Source: as the orders.
    """
    faults = _each_once(order)
    if rows not in (1, 2):
        raise BadFigure("A radial is checked with one row or two: say which.")
    wanted = single_row_order(len(order)) if rows == 1 else double_row_order(len(order))
    if faults:
        return faults
    after = dict(zip(wanted, (*wanted[1:], wanted[0]), strict=True))
    follows = zip(order, (*order[1:], order[0]), strict=True)
    return tuple(f"{after[now]} fires after {now} in this layout, not {then}." for now, then in follows if after[now] != then)


def faults_of_opposed(order: Sequence[int]) -> tuple[str, ...]:
    """What is wrong with the order of an opposed engine whose facing cylinders are 1 and 2, 3 and 4, and so on.

    Facing pistons reach top centre together, so they fire one whole turn apart: half way through the order. Empty when right.
    Units: none. Shape: cylinder numbers in firing order. Raises: NothingGiven; BadFigure for an odd number of cylinders.
    Source: geometry of facing throws half a turn apart; agrees with the orders of the FAA powerplant handbook.
    """
    faults = _each_once(order)
    if len(order) % 2:
        raise BadFigure(f"An opposed engine has an even number of cylinders: {len(order)} were given.")
    if faults:
        return faults
    place = {cylinder: turn for turn, cylinder in enumerate(order)}
    half = len(order) // 2
    pairs = ((first, first + 1) for first in range(1, len(order), 2))
    return tuple(
        f"{first} and {second} face each other and must fire one turn apart."
        for first, second in pairs
        if (place[first] - place[second]) % len(order) != half
    )


def fires_at(order: Sequence[int]) -> dict[int, Fraction]:
    """How far the crank has turned when each cylinder fires, counted from the first of the order; four-stroke, even intervals.

    Units: degrees of crank. Shape: each cylinder once. Raises: NothingGiven; BadFigure for an order with a cylinder twice or
    missing. Source: definition.
    """
    faults = _each_once(order)
    if faults:
        raise BadFigure(" ".join(faults))
    return {cylinder: Fraction(CYCLE_DEG * turn, len(order)) for turn, cylinder in enumerate(order)}


def _each_once(order: Sequence[int]) -> tuple[str, ...]:
    if not order:
        raise NothingGiven("No firing order was given: write the cylinder numbers in the order they fire.")
    if len(order) > MOST_CYLINDERS or not all(_whole(cylinder) for cylinder in order):
        raise BadFigure(f"A firing order is up to {MOST_CYLINDERS} whole cylinder numbers: write it again.")
    found = Counter(order)
    missing = (f"Cylinder {number} is missing." for number in range(1, len(order) + 1) if number not in found)
    twice = (f"Cylinder {number} fires more than once." for number, count in found.items() if count > 1)
    return (*missing, *twice)


def _shown(cylinders: int) -> str:
    return str(cylinders) if _whole(cylinders) else "that"


def _whole(number: object) -> bool:
    return isinstance(number, int) and not isinstance(number, bool) and abs(number) <= MOST_CYLINDERS
