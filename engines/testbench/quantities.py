"""What gauges of a stand show, exactly: temperatures with their offsets, flows, power, speed. Ratios only, no float."""

import re
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.errors import NotANumber, OtherDimension, UnknownUnit
from measurements.metrology.numbers import plain, read_number
from measurements.metrology.rounding import divide_half_even
from measurements.metrology.units import DIMENSION_OF, DIMENSIONS

FIGURE_AND_UNIT = re.compile(r"([+-]?[0-9.]+)(?![eE][+-]?[0-9])\s*([^\s0-9/.,+-]\S*)?")
HOUR = "/h"


@dataclass(frozen=True)
class Scale:
    """A unit as `value * size + zero` in the base unit of its kind."""

    kind: str
    size: Fraction
    zero: Fraction = Fraction(0)


ICE = Fraction("273.15")
HORSEPOWER = 550 * DIMENSIONS["length"]["ft"] * DIMENSIONS["force"]["lbf"]  # 550 foot-pounds a second, by definition
OWN: dict[str, Scale] = {
    "K": Scale("temperature", Fraction(1)),
    "°C": Scale("temperature", Fraction(1), ICE),
    "°F": Scale("temperature", Fraction(5, 9), ICE - 32 * Fraction(5, 9)),
    "hp": Scale("power", HORSEPOWER),
    "kW": Scale("power", Fraction(1000)),
    "rpm": Scale("speed", Fraction(1)),
    "%": Scale("share", Fraction(1)),
    "gal": Scale("volume", 4 * DIMENSIONS["volume"]["qt"]),
}
SPELLED = {"C": "°C", "F": "°F", "degC": "°C", "degF": "°F", "HP": "hp", "RPM": "rpm", "percent": "%"}


def scale_of(unit: str) -> Scale:
    """Raises UnknownUnit."""
    unit = SPELLED.get(unit, unit)
    if unit in OWN:
        return OWN[unit]
    if unit in DIMENSION_OF:
        return Scale(DIMENSION_OF[unit], DIMENSIONS[DIMENSION_OF[unit]][unit])
    if unit.endswith(HOUR) and unit != HOUR:
        base = scale_of(unit.removesuffix(HOUR))
        if base.kind in ("volume", "mass"):
            return Scale(f"{base.kind} an hour", base.size)
    raise UnknownUnit(f"unit “{unit[:20]}” is not known: use one such as °F, psi, inHg, rpm, hp, gal/h, lb/h, qt or %")


def convert(value: Fraction, unit: str, wanted: str) -> Fraction:
    """The same quantity in `wanted`, exactly; a unit of the data's own needs no turning. Raises UnknownUnit, OtherDimension."""
    if unit == wanted:
        return value
    given, target = scale_of(unit), scale_of(wanted)
    if given.kind != target.kind:
        raise OtherDimension(f"{unit} is a unit of {given.kind} and {wanted} one of {target.kind}: check the unit")
    return (value * given.size + given.zero - target.zero) / target.size


def read_quantity(text: str, unit: str) -> tuple[str, str]:
    """`185 °F` -> (`185`, `°F`); a figure without a unit of its own is in `unit`. The figure stays as typed.

    Raises NotANumber for anything but a plain decimal, UnknownUnit, and OtherDimension for a unit of another kind.
    """
    match = FIGURE_AND_UNIT.fullmatch(text.strip())
    if not match:
        raise NotANumber(f"“{text.strip()[:40]}” is not a number with its unit: write it in plain decimals, such as 185 {unit}")
    own = SPELLED.get(match[2] or "", match[2]) or unit
    convert(Fraction(read_number(match[1])), own, unit)
    return match[1], own


def rounded(value: Fraction, places: int) -> Fraction:
    """To so many decimals, a tie to the even digit (ASTM E29)."""
    return Fraction(divide_half_even(value.numerator * 10**places, value.denominator), 10**places)


def figure_text(value: Fraction, places: int = 4) -> str:
    """For the eye: exact where it ends within `places` decimals, else rounded to them and marked as such."""
    near = rounded(value, places)
    digits = next(count for count in range(places + 1) if (near * 10**count).denominator == 1)
    text = plain(int(near * 10**digits), digits)
    return text if near == value else f"≈ {text}"
