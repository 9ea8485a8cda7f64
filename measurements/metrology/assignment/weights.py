"""Weights matched for opposing pairs within a limit, and the pairs turned so that both sides weigh nearly the same."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from measurements.metrology.assignment.split import even_split
from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.figures import Exact, exact_all, exact_not_negative, whole_number

MOST_PAIRS = 1000


@dataclass(frozen=True)
class Pairing(Checked):
    """Opposing pairs by index, the part for the first side first; all weights in the unit given.

    `worst` is the greatest difference inside a pair, `total` the sum of the differences, `sides` how much heavier one whole
    side is.
    """

    pairs: tuple[tuple[int, int], ...]
    worst: Fraction
    total: Fraction
    sides: Fraction


@dataclass(frozen=True)
class Unmatched(Checked):
    """Why there is no pairing: at most so many pairs keep to the limit, and these parts, by index, have no partner in it."""

    most_pairs: int
    parts: tuple[int, ...]


def opposing_pairs(weights: Sequence[Exact], limit: Exact, pairs: int | None = None) -> Pairing | Unmatched:
    """Parts matched in pairs that differ by no more than a limit.

    Of all ways: the least worst difference, then the least sum of differences, then (of the pairs so found) the least
    difference between the two sides. With `pairs`, only so many are needed and parts may be left over.
    Units: one weight unit. Shape: at least two parts for each pair. Raises: NothingGiven, BadFigure.
    Source: weights in order of size pair best as neighbours; sides by branch and bound (`split.even_split`).
    """
    figures = exact_all(weights, "the weights")
    allowed = exact_not_negative(limit, "the limit of the difference")
    if min(figures) <= 0:
        raise BadFigure("A weight must be above zero: weigh the part again.")
    wanted = _count(len(figures), pairs)
    order = sorted(range(len(figures)), key=lambda index: figures[index])
    heights = [figures[index] for index in order]
    gaps = [after - before for before, after in pairwise(heights)]
    within = _greedy(gaps, allowed)
    if len(within) < wanted:
        taken = {place for start in within for place in (start, start + 1)}
        return Unmatched(len(within), tuple(sorted(order[place] for place in range(len(order)) if place not in taken)))
    worst = next(gap for gap in sorted(set(gaps)) if len(_greedy(gaps, gap)) >= wanted)
    starts = _least_sum(gaps, worst, wanted)
    differences = [gaps[start] for start in starts]
    heavy = even_split(differences).first
    placed = [(order[at + 1], order[at]) if place in heavy else (order[at], order[at + 1]) for place, at in enumerate(starts)]
    lean = sum((difference if place in heavy else -difference for place, difference in enumerate(differences)), Fraction())
    return Pairing(tuple(placed), max(differences), sum(differences, Fraction()), abs(lean))


def _count(parts: int, pairs: int | None) -> int:
    if pairs is None and parts % 2:
        raise BadFigure(f"{parts} parts do not make whole pairs: say how many pairs are needed, or weigh the missing part.")
    wanted = parts // 2 if pairs is None else pairs
    whole_number(wanted, "The number of pairs", 1, MOST_PAIRS)
    if parts < 2 * wanted:
        raise NothingGiven(f"{wanted} pairs need {2 * wanted} parts, {parts} were weighed: weigh the others.")
    return wanted


def _greedy(gaps: Sequence[Fraction], limit: Fraction) -> list[int]:
    """Where neighbours start that pair within a limit, as many pairs as can be."""
    starts: list[int] = []
    for start, gap in enumerate(gaps):
        if gap <= limit and (not starts or starts[-1] < start - 1):
            starts.append(start)
    return starts


def _least_sum(gaps: Sequence[Fraction], worst: Fraction, wanted: int) -> list[int]:
    """The starts of so many pairs of neighbours, none above `worst`, with the least sum of differences."""
    best: list[dict[int, tuple[Fraction, list[int]]]] = [{0: (Fraction(), [])}, {0: (Fraction(), [])}]
    for start, gap in enumerate(gaps):
        here = dict(best[-1])
        for count, (total, starts) in best[-2].items():
            joined = (total + gap, [*starts, start])
            if gap <= worst and count < wanted and joined < here.get(count + 1, (joined[0] + 1, [])):
                here[count + 1] = joined
        best.append(here)
    return best[-1][wanted][1]
