"""Weights split over two sides as evenly as can be."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import Exact, exact_all

MOST_WEIGHTS = 18


@dataclass(frozen=True)
class Split(Checked):
    """The weights of the first side, by index, and how much heavier one side is, in the unit of the weights."""

    first: frozenset[int]
    difference: Fraction


def even_split(weights: Sequence[Exact]) -> Split:
    """Two sides whose sums differ least, exactly, by branch and bound: heaviest first, cut off where the rest cannot make it up.

    Units: one unit. Shape: 1 to 18 weights of zero or more. Raises: NothingGiven, BadFigure. Source: number partitioning
    (Karmarkar and Karp 1982 for the problem; the search is an ordinary branch and bound).
    """
    figures = exact_all(weights, "the weights")
    if min(figures) < 0:
        raise BadFigure("A weight must not be negative: weigh the part again.")
    if len(figures) > MOST_WEIGHTS:
        raise BadFigure(f"{len(figures)} weights are more than the {MOST_WEIGHTS} that are split exactly.")
    base = lcm(*(figure.denominator for figure in figures))
    order = sorted(range(len(figures)), key=lambda index: -figures[index])
    numbers = [int(figures[index] * base) for index in order]
    step = gcd(*numbers) or 1
    taken, difference = _search([number // step for number in numbers])
    return Split(frozenset(order[place] for place in taken), Fraction(difference * step, base))


def _search(numbers: Sequence[int]) -> tuple[list[int], int]:
    rest = [sum(numbers[place:]) for place in range(len(numbers) + 1)]
    least = rest[0] % 2  # an odd total cannot be halved in whole numbers
    best, found = rest[0] + 1, [0]

    def branch(place: int, lead: int, taken: tuple[int, ...]) -> None:
        nonlocal best, found
        if best == least or abs(lead) - rest[place] >= best:
            return
        if place == len(numbers):
            best, found = abs(lead), list(taken)
            return
        sides = (1,) if lead == 0 else (-1, 1) if lead > 0 else (1, -1)  # from evens, one side mirrors the other
        for side in sides:
            branch(place + 1, lead + side * numbers[place], (*taken, place) if side == 1 else taken)

    branch(0, 0, ())
    return found, best
