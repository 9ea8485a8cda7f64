"""A figure with its unit, as people type it: `53.94 mm`."""

import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.numbers import mantissa_and_places, read_number
from measurements.metrology.units import DIMENSION_OF, dimension_of, ratio

FIGURE_AND_UNIT = re.compile(r"([+-]?[0-9.]+)\s*(.*)", re.DOTALL)


@dataclass(frozen=True)
class Quantity(Checked):
    """A number with the decimals it was typed with, and its unit."""

    value: Decimal
    unit: str

    @property
    def dimension(self) -> str:
        """What it measures, such as `length`."""
        return dimension_of(self.unit)

    def in_unit(self, wanted: str) -> Fraction:
        """The quantity in another unit of its dimension, exactly. Raises UnknownUnit, OtherDimension."""
        return Fraction(self.value) * ratio(self.unit, wanted)


def split_figure(text: str, unit: str = "") -> tuple[str, str]:
    """`2.1235 in` -> (`2.1235`, `in`); a figure without a unit of its own is in `unit`. The figure stays as typed.

    Units: any known. Raises: NotANumber for fractions such as 1-1/8, exponents and anything else that is no plain decimal;
    UnknownUnit for a unit that is missing or not known. Source: common practice, no source.
    """
    text = text.strip()
    match = FIGURE_AND_UNIT.fullmatch(text)
    value, own = (match[1], match[2]) if match else (text, "")
    if own and own not in DIMENSION_OF:
        if own.isalpha():
            dimension_of(own)
        value, own = text, ""
    mantissa_and_places(value)
    dimension_of(own or unit)
    return value, own or unit


def read_quantity(text: str, unit: str = "") -> Quantity:
    """The number and the unit of a text such as `53.94 mm`; without a unit of its own it is in `unit`.

    Units: any known. Raises: as `split_figure`. Source: common practice, no source.
    """
    value, own = split_figure(text, unit)
    return Quantity(read_number(value), own)
