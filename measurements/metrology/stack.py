"""End play from several thicknesses: worst case, and root-sum-square of the members' half spreads."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.figures import Exact, exact, ordered


@dataclass(frozen=True)
class Member(Checked):
    """One thickness: name, least and greatest in one length unit, and +1 where it opens the gap, -1 where it closes it."""

    name: str
    least: Exact
    greatest: Exact
    direction: int = 1


@dataclass(frozen=True)
class Stack(Checked, not_negative=("half_spread_squared",), in_order=(("least", "greatest"),)):
    """Gap in the unit of its members: worst cases, mean, and the square of the root-sum-square half spread."""

    least: Fraction
    mean: Fraction
    greatest: Fraction
    half_spread_squared: Fraction

    @property
    def half_spread(self) -> float:
        """Root-sum-square half spread, rounded to a binary number; for limits use `statistically_within`."""
        return math.sqrt(self.half_spread_squared)


def stack(members: Sequence[Member]) -> Stack:
    """Add up a chain of members.

    Units: one length. Shape: at least one member. Raises: NothingGiven, BadLimits when a member's sizes are reversed, BadFigure.
    Source: root-sum-square tolerancing, common practice, no source.
    """
    if not members:
        raise NothingGiven("The chain has no member: name the parts that make up the gap.")
    spans = [_span(member) for member in members]
    least = sum((low for low, _ in spans), Fraction())
    greatest = sum((high for _, high in spans), Fraction())
    squared = sum((((high - low) / 2) ** 2 for low, high in spans), Fraction())
    return Stack(least, (least + greatest) / 2, greatest, squared)


def worst_case_within(gap: Stack, low: Exact | None, high: Exact | None) -> bool:
    """Whether every combination of members within their limits keeps the gap within its own.

    Units: the unit of the members. Raises: BadLimits, BadFigure. Source: definition.
    """
    least, greatest = ordered(low, high, "the limits of the gap")
    return (least is None or gap.least >= least) and (greatest is None or gap.greatest <= greatest)


def statistically_within(gap: Stack, low: Exact | None, high: Exact | None) -> bool:
    """Whether mean less and plus the root-sum-square half spread keeps within limits; squares are compared, never a root.

    Units: the unit of the members. Raises: BadLimits, BadFigure. Source: root-sum-square, common practice, no source.
    """
    least, greatest = ordered(low, high, "the limits of the gap")
    rooms = [gap.mean - least] if least is not None else []
    rooms += [greatest - gap.mean] if greatest is not None else []
    return all(room >= 0 and room * room >= gap.half_spread_squared for room in rooms)


def _span(member: Member) -> tuple[Fraction, Fraction]:
    ordered(member.least, member.greatest, f"the sizes of {member.name}")
    least, greatest = exact(member.least, member.name), exact(member.greatest, member.name)
    if member.direction == 1:
        return least, greatest
    if member.direction == -1:
        return -greatest, -least
    raise BadFigure(f"{member.name} must open (+1) or close (-1) the gap: say which.")
