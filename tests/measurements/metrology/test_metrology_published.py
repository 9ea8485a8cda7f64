"""The small functions against figures from outside; sources stand beside them in tests/published/limit_tables.py."""

from fractions import Fraction

import pint
import pytest

from measurements.metrology.numbers import mantissa_and_places, plain, plain_float, plain_ratio, read_number
from measurements.metrology.rounding import to_step
from measurements.metrology.units import DIMENSIONS, ratio
from tests.published import limit_tables as printed

PINT_NAMES = {
    "N·m": "N*m", "lbf·in": "lbf*inch", "lbf·ft": "lbf*ft", "in": "inch", "inHg": "inHg", "in3": "inch**3", "cm3": "cm**3",
    "qt": "quart", "deg": "degree", "ozf": "ounce_force", "um": "micrometer",
    "W/m2": "W/m**2", "mW/cm2": "mW/cm**2", "uW/cm2": "uW/cm**2", "fc": "lumen/ft**2", "lx": "lux",
    "T": "tesla", "mT": "millitesla", "G": "gamma*1e5",
}  # fmt: skip


@pytest.mark.parametrize(("typed", "decimals", "expected"), printed.E29_ROUNDING)
def test_rounding_goes_half_to_even(typed, decimals, expected):
    mantissa, places = mantissa_and_places(typed)
    rounded = to_step(mantissa, 10 ** (places - decimals))

    assert Fraction(rounded, 10**places) == Fraction(expected)


@pytest.mark.parametrize(("value", "step", "expected"), printed.E29_MULTIPLES)
def test_rounding_to_a_multiple(value, step, expected):
    assert to_step(value, step) == expected


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_every_unit_agrees_with_pint(dimension):
    registry = pint.UnitRegistry()
    first, *others = DIMENSIONS[dimension]
    spelled = [unit for unit in others if unit in PINT_NAMES or (unit.isascii() and unit.isalnum() and unit != "Nm")]
    for unit in spelled:
        theirs = registry(PINT_NAMES.get(unit, unit)).to(PINT_NAMES.get(first, first)).magnitude
        assert float(ratio(unit, first)) == pytest.approx(theirs, rel=1e-9), unit


@pytest.mark.parametrize(
    ("typed", "shown"),
    [("2.4990", "2.4990"), (".0021", "0.0021"), ("5.", "5"), ("+0.5", "0.5"), ("-.05", "-0.05"), ("-0.0", "0.0"), ("0012", "12")],
)
def test_numbers_keep_the_decimals_they_were_typed_with(typed, shown):
    assert plain(*mantissa_and_places(typed)) == shown
    assert f"{read_number(typed):f}" == shown


def test_a_ratio_is_exact_where_it_ends_and_long_where_it_does_not():
    assert plain_ratio(24990 * 254, 10**5) == "63.4746"
    assert plain_ratio(127, 254) == "0.5"
    assert plain_ratio(-1, 3) == "-0.333333333333333"
    assert plain_ratio(63475, 25400000000).startswith("0.00000249901574803149")
    assert plain_ratio(10**40, 3).isdigit()


def test_a_small_probability_is_written_without_an_exponent():
    assert plain_float(1.25e-9) == "0.00000000125"
    assert plain_float(1.0) == "1"
