"""Temperatures. Their scales differ by an offset too, so a reading and a difference convert in different ways, both exactly."""

from fractions import Fraction
from typing import NamedTuple

from measurements.metrology.errors import BadFigure, UnknownUnit
from measurements.metrology.figures import Exact, exact


class Scale(NamedTuple):
    """Kelvins in one degree, and the scale's zero in kelvin."""

    degree: Fraction
    zero: Fraction


CELSIUS = Scale(Fraction(1), Fraction("273.15"))
FAHRENHEIT = Scale(Fraction(5, 9), Fraction("273.15") - 32 * Fraction(5, 9))
SCALES = {
    **dict.fromkeys(("°C", "degC", "C"), CELSIUS),
    **dict.fromkeys(("°F", "degF", "F"), FAHRENHEIT),
    "K": Scale(Fraction(1), Fraction()),
    **dict.fromkeys(("°R", "degR"), Scale(Fraction(5, 9), Fraction())),
}


def temperature(reading: Exact, scale: str, wanted: str) -> Fraction:
    """A reading of one scale on another: 59 °F is 15 °C.

    Units: °C, °F, K, °R in and out. Raises: UnknownUnit for another scale, BadFigure below absolute zero or as `figures.exact`.
    Source: NIST SP 811, appendix B.8 (exact).
    """
    kelvin = exact(reading, "the temperature") * _scale(scale).degree + _scale(scale).zero
    if kelvin < 0:
        raise BadFigure("The temperature lies below absolute zero: check the figure and its scale.")
    return (kelvin - _scale(wanted).zero) / _scale(wanted).degree


def temperature_difference(difference: Exact, scale: str, wanted: str) -> Fraction:
    """A difference of two readings of one scale in degrees of another: a rise of 9 °F is one of 5 °C.

    Units: degrees of °C, °F, K, °R in and out. Raises: UnknownUnit, BadFigure. Source: NIST SP 811, appendix B.8 (exact).
    """
    return exact(difference, "the difference") * _scale(scale).degree / _scale(wanted).degree


def _scale(name: str) -> Scale:
    if name not in SCALES:
        raise UnknownUnit(f"“{str(name)[:20]}” is no scale of temperature: use one of {', '.join(SCALES)}")
    return SCALES[name]
