"""Many verdicts at once, on whole numbers at one scale: the same rules as `verdicts.judge`, in columns.

A code is the weight of a judgement: where several hold for one value the heaviest counts, as `judge` decides them in that
order. Blocks are small enough for a core's own memory, and figures that fit are judged in 32 bits, where a comparison costs a
fifth; so reading the columns once is nearly all that it costs.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import ArrayLike, NDArray

from measurements.metrology.errors import BadFigure, MixedDimensions
from measurements.metrology.figures import check_whole
from measurements.metrology.limits import Criterion, check_criterion
from measurements.metrology.verdicts import BY_WEIGHT, WITHOUT_UNCERTAINTY, Judgement

Whole = NDArray[np.int64]
Figures = Whole | NDArray[np.int32]
Codes = NDArray[np.uint8]
BLOCK = 1 << 15
GREATEST = 1 << 61  # a limit and an uncertainty of this size still add up in 64 bits
SMALL = 1 << 30  # and two figures below this one in 32 bits

SERVICEABLE, ON_THE_FIT, TOO_CLOSE, CANNOT_DECIDE, OUTSIDE, NO_LIMIT, DISAGREE, NEEDS_U = range(1, 9)
NOT_STATED = len(BY_WEIGHT)  # what is added where no uncertainty is stated and the row does not say which rule
JUDGEMENTS: tuple[Judgement, ...] = (*BY_WEIGHT, *(WITHOUT_UNCERTAINTY.get(each, each) for each in BY_WEIGHT))


def judge_many(least: ArrayLike, greatest: ArrayLike, held: Criterion, u: ArrayLike = 0) -> Codes:
    """One code for each reading; `JUDGEMENTS[code]` is what `verdicts.judge` says of it.

    Units: whole numbers at the criterion's scale; `u` is the expanded uncertainty (k = 2), not squared, 0 where not stated.
    Shapes: `least` and `greatest` one-dimensional and alike; `u` a single number, or one for each.
    Raises: BadFigure for binary fractions, figures too long for 64 bits and negative uncertainties, MixedDimensions where the
    shapes do not belong together or a least value lies above its greatest.
    Source: as `verdicts.judge` (JCGM 106, ISO 14253-1, ASTM E29).
    """
    lows, us = whole(least, "the least values"), whole(u, "the uncertainties")
    highs = lows if greatest is least else whole(greatest, "the greatest values")
    if lows.ndim != 1 or lows.shape != highs.shape or us.shape not in ((), lows.shape):
        raise MixedDimensions(f"readings {lows.shape} and {highs.shape} with uncertainties {us.shape} do not belong together.")
    check_criterion(held)
    if us.size and us.min() < 0:
        raise BadFigure("an uncertainty is negative: write U at k = 2, or 0 where none is stated.")
    if us.size and us.max() > GREATEST:
        raise TooLong("the uncertainties")
    if any(abs(limit) > GREATEST for limit in (held.new_min, held.new_max, held.low, held.high) if limit is not None):
        raise TooLong("the limits")
    codes = np.empty(lows.shape, np.uint8)
    small = max(_largest(held), int(us.max(initial=0))) < SMALL
    for part in _blocks(len(codes)):
        low = lows[part]
        high = low if highs is lows else highs[part]
        u = us if us.ndim == 0 else us[part]
        fits = _fits_small(low, high) and small
        codes[part] = _codes(*(_narrow(low, high, u) if fits else (low, high, u)), held)
    return codes


class TooLong(BadFigure):
    def __init__(self, what: str) -> None:
        super().__init__(f"{what} have too many digits at this scale: judge these readings one by one.")


def at_scale(values: ArrayLike, factor: int) -> Whole:
    """Figures as typed (whole numbers of their last decimal) at a common scale, so that millimetres meet inches exactly.

    Units: `factor` is how many units of the scale one such number is. Shape: any. Raises: BadFigure as `judge_many`.
    Source: exact arithmetic, definition.
    """
    check_whole((factor,))
    if factor < 1:
        raise BadFigure("A scale has a whole number of units, one at least: take that of the row.")
    typed = whole(values, "the values")
    furthest = max(abs(int(typed.min())), abs(int(typed.max()))) if typed.size else 0
    if furthest * abs(factor) > GREATEST:
        raise TooLong("the values")
    scaled: Whole = np.multiply(typed, factor)
    return scaled


def whole(values: ArrayLike, what: str) -> Whole:
    """The figures as 64-bit whole numbers, never rounded.

    Units: those of the figures. Shape: kept. Raises: BadFigure for anything but whole numbers that 64 bits hold.
    Source: definition.
    """
    try:
        given = np.asarray(values)
    except (OverflowError, ValueError) as trouble:
        raise BadFigure(f"{what} are no rows of figures: {trouble}.") from trouble
    if given.size and given.dtype.kind not in "iu":
        raise BadFigure(f"{what} must be whole numbers at one scale, not {given.dtype}: scale what was typed.")
    if given.dtype == np.uint64 and given.size and int(given.max()) > GREATEST:
        raise TooLong(what)
    return given.astype(np.int64, copy=False)


def _largest(held: Criterion) -> int:
    return max(abs(limit) for limit in (held.new_min or 0, held.new_max or 0, held.low or 0, held.high or 0, held.step))


def _fits_small(least: Whole, greatest: Whole) -> bool:
    """Whether all figures of a block are SMALL. Raises BadFigure where they are too long even for 64 bits."""
    floor, ceiling = least.min(), greatest.max()
    if floor < -GREATEST or ceiling > GREATEST:
        raise TooLong("the values")
    inside = floor > -SMALL and ceiling < SMALL
    return bool(inside and (least is greatest or (least.max() < SMALL and greatest.min() > -SMALL)))


def _narrow(least: Whole, greatest: Whole, u: Whole) -> tuple[Figures, Figures, Figures]:
    low = least.astype(np.int32)
    return low, low if greatest is least else greatest.astype(np.int32), u.astype(np.int32)


def _blocks(length: int) -> Iterator[slice]:
    return (slice(begin, begin + BLOCK) for begin in range(0, length, BLOCK))


def _codes(least: Figures, greatest: Figures, u: Figures, held: Criterion) -> Codes:
    if least is not greatest and (least > greatest).any():
        raise MixedDimensions("a least value lies above its greatest: they were swapped.")
    if held.columns_disagree:
        return np.full(least.shape, DISAGREE, np.uint8)
    if held.new_min is None and held.new_max is None and held.low is None and held.high is None:
        return np.full(least.shape, NO_LIMIT, np.uint8)
    stated = u != 0
    if held.rule == "simple" or not stated.any():
        return _without_u(least, greatest, held)
    guarded = _weigh(least, greatest, held, u)
    return guarded if stated.all() else np.where(stated, guarded, _without_u(least, greatest, held))


def _without_u(least: Figures, greatest: Figures, held: Criterion) -> Codes:
    if held.rule == "guard":
        return np.full(least.shape, NEEDS_U, np.uint8)
    if held.step:
        alike = least is greatest
        least = _to_step(least, held.step)
        greatest = least if alike else _to_step(greatest, held.step)
    codes = _weigh(least, greatest, held, None)
    return codes if held.rule else codes + np.uint8(NOT_STATED)


def _weigh(least: Figures, greatest: Figures, held: Criterion, u: Figures | None) -> Codes:
    """The heaviest that holds of each. Without an uncertainty nothing lies between outside and inside."""
    room = 0 if u is None else u
    no_new = held.new_min is None and held.new_max is None
    codes = np.full(least.shape, no_new, np.uint8)
    found = [(_beyond(least, greatest, held.wear_min, held.wear_max, 0), ON_THE_FIT)]
    if not no_new:
        found.append((_beyond(least, greatest, held.new_min, held.new_max, room), SERVICEABLE))
    found.append((_beyond(least, greatest, held.low, held.high, -room), OUTSIDE))
    if u is not None:
        found.append((_beyond(least, greatest, held.low, held.high, u), TOO_CLOSE))
        if held.low is not None and held.high is not None:
            found.append((np.asarray(2 * u > held.high - held.low), CANNOT_DECIDE))
    for holds, code in found:
        if holds is not None:
            weight = holds.view(np.uint8)
            np.maximum(codes, np.multiply(weight, np.uint8(code), out=weight), out=codes)
    return codes


def _beyond(
    least: Figures, greatest: Figures, low: int | None, high: int | None, room: Figures | int
) -> NDArray[np.bool_] | None:
    """Nearer to a limit than `room` on the inside, or beyond it; a negative room is how far beyond."""
    below = None if low is None else least < low + room
    above = None if high is None else greatest > high - room
    if below is None or above is None:
        return above if below is None else below
    return np.logical_or(below, above, out=below)


def _to_step(values: Figures, step: int) -> Figures:
    """As `rounding.to_step`: the nearest multiple, a tie to the even one."""
    if step > GREATEST:
        raise TooLong("the decimals to round to")
    multiples, rest = np.divmod(values, step)
    up = (2 * rest > step) | ((2 * rest == step) & (multiples & 1 == 1))
    rounded: Figures = (multiples + up) * step
    return rounded
