"""Weights of rods and pistons: what turns and what goes up and down, and how alike opposing cylinders are."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, MixedDimensions, NothingGiven
from measurements.metrology.figures import Exact, exact_all, exact_not_negative, exact_positive
from measurements.metrology.held import hold
from measurements.metrology.limits import LimitRow
from measurements.metrology.verdicts import Judgement


@dataclass(frozen=True)
class RodEnds(Checked):
    """A rod's weight shared between its ends, in the unit of the scale: the big end turns, the small end reciprocates."""

    big: Fraction
    small: Fraction


@dataclass(frozen=True)
class PairDifference(Checked):
    """Two opposing cylinders and how much heavier the first's parts are than the second's (negative: lighter)."""

    first: str
    second: str
    difference: Fraction


def rod_ends(whole: Exact, big_end: Exact) -> RodEnds:
    """The two ends of a rod, from its whole weight and that of its big end with the small one hung level.

    Units: one weight. Raises: BadFigure when the big end outweighs the rod. Source: common practice, no source (statics of two
    supports).
    """
    total, big = exact_positive(whole, "the rod's weight"), exact_positive(big_end, "the big end's weight")
    if big >= total:
        raise BadFigure("The big end cannot weigh as much as the whole rod: weigh both again.")
    return RodEnds(big, total - big)


def bob_weight(turning: Iterable[Exact], reciprocating: Iterable[Exact], share: Exact) -> Fraction:
    """What stands in for rods and pistons on a crankpin: all that turns, and a share of what reciprocates.

    Units: one weight; the share is data of the engine, 0 to 1. Shape: at least one weight of each kind. Raises: NothingGiven,
    BadFigure for negative weights or a share outside 0 to 1. Source: common practice, no source.
    """
    part = exact_not_negative(share, "the share balanced")
    if part > 1:
        raise BadFigure("The share of the reciprocating weight that is balanced runs from 0 to 1: check it.")
    return _sum(turning, "the turning weights") + part * _sum(reciprocating, "the reciprocating weights")


def spread(weights: Mapping[str, Exact]) -> Fraction:
    """Heaviest less lightest.

    Units: one weight. Shape: name to weight, at least one. Raises: NothingGiven, BadFigure for zero and below.
    Source: definition.
    """
    values = exact_all(weights.values(), "the weights")
    if min(values) <= 0:
        raise BadFigure("A weight must be above zero: weigh it again.")
    return max(values) - min(values)


def opposing_differences(weights: Mapping[str, Exact], pairs: Iterable[tuple[str, str]]) -> tuple[PairDifference, ...]:
    """How unlike the parts of opposing cylinders are, pair by pair.

    Units: one weight. Shape: position to weight, at least one pair of two positions, no position in two pairs.
    Raises: NothingGiven without a pair or a weight, MixedDimensions for a position used twice, BadFigure. Source: definition.
    """
    named = tuple(pairs)
    if any(len(pair) != 2 for pair in named):
        raise MixedDimensions("A pair names two positions: say which face each other.")
    positions = [position for pair in named for position in pair]
    if not named:
        raise NothingGiven("No opposing pair was named: say which positions face each other.")
    if len(set(positions)) != len(positions):
        raise MixedDimensions("A position stands in two pairs, or faces itself: name each once.")
    missing = [position for position in positions if position not in weights]
    if missing:
        raise NothingGiven(f"No weight was given for {', '.join(missing)}: weigh what is missing.")
    weighed = {position: exact_positive(weights[position], f"the weight of {position}") for position in positions}
    return tuple(PairDifference(first, second, weighed[first] - weighed[second]) for first, second in named)


def judge_opposing(weights: Mapping[str, Exact], pairs: Iterable[tuple[str, str]], row: LimitRow) -> Judgement:
    """The verdict on the differences of all pairs, taken without sign, decided exactly.

    Units: the row's unit. Shape: as `opposing_differences`. Raises: as `opposing_differences` and `hold`.
    Source: as `verdicts.judge`.
    """
    return hold([abs(pair.difference) for pair in opposing_differences(weights, pairs)], row)


def _sum(weights: Iterable[Exact], what: str) -> Fraction:
    values = exact_all(weights, what)
    return sum((exact_not_negative(value, what) for value in values), Fraction())
