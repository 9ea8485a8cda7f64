"""Which shims from the box: for end play, where each closes the gap by its own thickness, and for backlash, where by a share."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations_with_replacement
from math import lcm

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive, ordered, whole_number
from measurements.metrology.numbers import plain_ratio

MOST_KINDS = 24
MOST_SHIMS = 5
MOST_IN_BOX = 10_000


@dataclass(frozen=True)
class ShimRange(Checked, in_order=(("least", "greatest"),)):
    """Total thickness of shims that is wanted, and the least and greatest that will do, in one length unit."""

    least: Fraction
    wanted: Fraction
    greatest: Fraction


@dataclass(frozen=True)
class ShimPack(Checked):
    """Thicknesses to fit, thickest first, and their total, in the unit of the box."""

    shims: tuple[Fraction, ...]
    total: Fraction


def for_end_play(play_without_shims: Exact, low: Exact, high: Exact) -> ShimRange:
    """The thickness that brings an end play within limits, aiming at their middle.

    Units: one length. Raises: BadLimits, BadFigure, NoAnswer when the play without shims is already below the least.
    Source: arithmetic.
    """
    return for_backlash(play_without_shims, low, high, 0, 1)


def for_backlash(backlash: Exact, low: Exact, high: Exact, fitted: Exact, closed_by_thickness: Exact) -> ShimRange:
    """The thickness that brings a backlash within limits, aiming at their middle, from one read with shims already fitted.

    Units: one length; `closed_by_thickness` is the backlash closed by a unit of thickness, negative where a thicker shim opens
    it. Raises: BadLimits, BadFigure for a share of zero, NoAnswer when even no shim is too thick. Source: arithmetic.
    """
    ordered(low, high, "the limits of the play")
    read, least, greatest = exact_not_negative(backlash, "the play"), exact(low, "the least"), exact(high, "the greatest")
    share, now = exact(closed_by_thickness, "the play closed by a thickness"), exact_not_negative(fitted, "the shims fitted")
    if not share:
        raise BadFigure("A shim that closes nothing cannot be chosen: give the play closed by a unit of thickness.")
    ends = sorted((now + (read - greatest) / share, now + (read - least) / share))
    if ends[1] < 0:
        raise NoAnswer("Even without a shim the play is out of limits: check the parts that make it up.")
    return ShimRange(max(Fraction(), ends[0]), (ends[0] + ends[1]) / 2, ends[1])


def shims_for(wanted: ShimRange, box: Mapping[Exact, int], most: int = MOST_SHIMS) -> ShimPack:
    """The pack nearest the wanted thickness within its range; of equals the one with the fewest shims, then the thickest.

    Units: that of the range. Shape: thickness to how many there are, up to 24 thicknesses; at most five shims in a pack.
    Raises: NothingGiven for an empty box, BadFigure, NoAnswer when no pack comes within the range. Source: exhaustive search.
    """
    counts = _checked(box, most)
    scale = lcm(wanted.wanted.denominator, *(thickness.denominator for thickness in counts))
    whole = {int(thickness * scale): count for thickness, count in counts.items()}
    aim = int(wanted.wanted * scale)
    nearest = min(_packs(whole, most), key=lambda pack: (abs(sum(pack) - aim), len(pack), [-shim for shim in pack]))
    chosen = ShimPack(tuple(Fraction(shim, scale) for shim in nearest), Fraction(sum(nearest), scale))
    if not wanted.least <= chosen.total <= wanted.greatest:
        shown = plain_ratio(chosen.total.numerator, chosen.total.denominator)
        raise NoAnswer(f"No pack of up to {most} shims from this box comes within limits; the nearest is {shown}.")
    return chosen


def _packs(counts: Mapping[int, int], most: int) -> Iterator[tuple[int, ...]]:
    """Every pack that the box can fill, thickest shim first: whole numbers, because there may be a hundred thousand."""
    thickest_first = sorted(counts, reverse=True)
    for size in range(most + 1):
        for pack in combinations_with_replacement(thickest_first, size):
            if all(pack.count(shim) <= counts[shim] for shim in set(pack)):
                yield pack


def _checked(box: Mapping[Exact, int], most: int) -> dict[Fraction, int]:
    if not box:
        raise NothingGiven("The box is empty: write down the thicknesses there are.")
    whole_number(most, "The number of shims", 1, MOST_SHIMS)
    if len(box) > MOST_KINDS:
        raise BadFigure(f"A search takes up to {MOST_KINDS} thicknesses and from one to {MOST_SHIMS} shims: narrow it down.")
    for count in box.values():
        whole_number(count, "The number of shims in the box", 0, MOST_IN_BOX)
    return {exact_positive(thickness, "a thickness"): count for thickness, count in box.items()}
