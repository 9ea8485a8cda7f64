"""A row prepared for values typed in one unit with so many decimals: everything becomes whole numbers at one scale."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from typing import NamedTuple

from measurements.metrology.limits import Criterion, LimitRow, criterion
from measurements.metrology.numbers import plain, plain_ratio
from measurements.metrology.rounding import divide_half_even
from measurements.metrology.units import ratio


class Typed(NamedTuple):
    """How a reading was written: its unit, the decimals of its finest value, and those of its expanded uncertainty."""

    unit: str
    places: int
    u_places: int


@dataclass(frozen=True, slots=True)
class Scale:
    """What turns typed whole numbers into multiples of 1/`size` of the row's unit.

    `values` and `uncertainties` hold one multiplier for each `Typed` the scale was made for. `places` is the decimals
    of the finest input where all were typed in the row's own unit, None where a conversion took place; `shrink` leads
    from the scale back to those decimals.
    """

    typed: tuple[Typed, ...]
    size: int
    values: tuple[int, ...]
    uncertainties: tuple[int, ...]
    places: int | None
    shrink: int
    mean_places: int
    mean_factor: int
    held: Criterion

    def text(self, value: int) -> str:
        """A value at this scale in the row's unit: as finely as it was typed, or exact, or to 15 significant digits."""
        if self.places is None:
            return plain_ratio(value, self.size)
        return plain(value // self.shrink, self.places)

    def mean_text(self, total: int, count: int) -> str:
        """The mean of `count` values adding up to `total`, half to even."""
        return plain(divide_half_even(total * self.mean_factor, count * self.size), self.mean_places)


def scale_for(row: LimitRow, typed: Sequence[Typed]) -> Scale:
    """The coarsest scale at which the row's limits and everything typed are whole numbers. Raises OtherDimension, UnknownUnit."""
    ratios = [ratio(each.unit, row.unit) for each in typed]
    decimals = max(row.places, *(max(each.places, each.u_places) for each in typed))
    size = lcm(*(each.denominator for each in ratios)) * 10**decimals
    places = max(each.places for each in typed)
    converted = any(each.unit != row.unit for each in typed)
    mean_places = max(way.places + extra_places(each) for each, way in zip(ratios, typed, strict=True))
    return Scale(
        typed=tuple(typed),
        size=size,
        values=tuple(_whole(size * each / 10**way.places) for each, way in zip(ratios, typed, strict=True)),
        uncertainties=tuple(_whole(size * each / 10**way.u_places) for each, way in zip(ratios, typed, strict=True)),
        places=None if converted else places,
        shrink=size // 10**places,
        mean_places=mean_places,
        mean_factor=10**mean_places,
        held=criterion(row, size),
    )


def _whole(number: Fraction) -> int:
    """The multiplier as an integer: the scale was chosen so that it is one."""
    if number.denominator != 1:
        raise ArithmeticError(f"{number} is not whole: the scale is wrong")
    return number.numerator


def extra_places(to_row: Fraction) -> int:
    """Two decimals beyond the finest input; more only where the row's unit is so large that two would be coarser than it."""
    places = 2
    while 10**places * to_row < 1:
        places += 1
    return places
