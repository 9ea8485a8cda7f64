"""Figures worked out from readings, against what is printed elsewhere; quantities exactly."""

from fractions import Fraction

import pytest

from engines.testbench.channels import BOTH, DROP_DIFFERENCE, DROP_LEFT, DROP_RIGHT, LEFT, RIGHT
from engines.testbench.derived import correction_named, ignition_drops, oil_rate, power_corrected
from engines.testbench.limits import hold, words_of
from engines.testbench.quantities import convert, figure_text, read_quantity, rounded
from measurements.metrology.errors import BadFigure, NotANumber, OtherDimension, UnknownUnit
from tests.making_packs import small_pack, with_run


def read(power, air, barometer, humidity):
    figures = {"power": power, "air temperature": air, "air pressure": barometer, "humidity": humidity}
    return {channel: Fraction(value) for channel, value in figures.items()}


@pytest.mark.parametrize(
    ("name", "given", "expected"),
    [
        # the standard day itself: 200 hp stay 200 hp (the classic form with 460/519)
        ("classic 460/519", ("200", "59", "29.92", "0"), "200.0"),
        # 85 °F and 85 %, 28.85 inHg: CF 1.10112 with 460/520, worked on a public discussion page that prints 1.1005; ours has
        # the vapour of IAPWS-IF97 in place of the page's table (B10)
        ("classic 460/520", ("100", "85", "28.85", "85"), "110.1"),
        # 55 °F and 35 %, 30.10 inHg: CF .99427, the page prints .994 (B10)
        ("classic 460/520", ("100", "55", "30.10", "35"), "99.4"),
        # the same two days by SAE J1349 June 1990: 1.06932 and .94809 (B10)
        ("SAE J1349 June 1990", ("100", "85", "28.85", "85"), "106.9"),
        ("SAE J1349 June 1990", ("100", "55", "30.10", "35"), "94.8"),
    ],
)
def test_corrected_power_agrees_with_the_published_days(name, given, expected):
    figure = power_corrected(read(*given), correction_named(name))
    assert figure.value == Fraction(expected)
    assert (figure.facts["correction"], figure.facts["rounded to, hp"]) == (name, "0.1")
    assert "CF =" in figure.facts["formula"]
    assert figure.facts["standard temperature"]


def test_the_data_name_a_correction_that_is_known_or_nothing_is_corrected():
    with pytest.raises(BadFigure, match="have the data put right"):
        correction_named("by feel")


@pytest.mark.parametrize(
    ("speeds", "drops", "warns"),
    [
        # common practice, no source: drop is the speed on both less the speed on one
        (("1700", "1625", "1600"), ("75", "100", "25"), False),
        (("1700", "1700", "1650"), ("0", "50", "50"), True),
        (("1700.5", "1600.25", "1650"), ("100.25", "50.5", "49.75"), False),
    ],
)
def test_ignition_drops(speeds, drops, warns):
    figures = {each.channel: each for each in ignition_drops(dict(zip((BOTH, LEFT, RIGHT), map(Fraction, speeds), strict=True)))}
    assert tuple(figures[name].value for name in (DROP_LEFT, DROP_RIGHT, DROP_DIFFERENCE)) == tuple(map(Fraction, drops))
    assert bool(figures[DROP_LEFT].warning) is warns


def test_oil_consumption_counts_what_was_added_on_the_way():
    """Definition: 8 qt and 1 qt put in, 8.5 left after a quarter of an hour, are half a quart in a quarter: 2 qt/h."""
    assert oil_rate([Fraction(8), Fraction(1)], Fraction("8.5"), Fraction(1, 4)).value == 2
    with pytest.raises(BadFigure, match="More oil is left"):
        oil_rate([Fraction(8)], Fraction(9), Fraction(1))


@pytest.mark.parametrize(
    ("value", "unit", "wanted", "expected"),
    [
        # NIST SP 811, appendix B: the scales of temperature, exactly; and its definitions of the inch and the pound
        ("100", "°C", "°F", "212"),
        ("-40", "°F", "°C", "-40"),
        ("59", "°F", "K", "288.15"),
        ("0", "K", "°F", "-459.67"),
        ("1", "gal/h", "qt/h", "4"),
        ("1", "gal/h", "L/h", "3.785411784"),
        ("1", "lb/h", "kg/h", "0.45359237"),
        # 550 ft·lbf/s: .74569987158227022 kW (NIST SP 811, horsepower)
        ("1", "hp", "kW", "0.74569987158227022"),
    ],
)
def test_units_of_the_stand_are_exact(value, unit, wanted, expected):
    assert convert(Fraction(value), unit, wanted) == Fraction(expected)


@pytest.mark.parametrize(
    ("text", "unit", "error"),
    [("1/2", "psi", NotANumber), ("1e3", "psi", NotANumber), ("30 tea", "psi", UnknownUnit), ("30 psi", "°F", OtherDimension)],
)
def test_a_quantity_that_cannot_be_used_is_refused(text, unit, error):
    with pytest.raises(error):
        read_quantity(text, unit)


def test_a_third_is_shown_as_near_and_decided_exactly():
    assert (figure_text(Fraction(1, 3)), figure_text(Fraction("0.25"))) == ("≈ 0.3333", "0.25")
    assert [rounded(Fraction(text), 1) for text in ("0.25", "0.35")] == [Fraction("0.2"), Fraction("0.4")], "ASTM E29: to even"


def test_limits_are_worded_with_what_ends_the_run():
    limits = {(each.step, each.channel): each for each in with_run(small_pack()).run_limits}
    head = limits["full", "cylinder temperature"]
    assert words_of(head) == "at most 450 °F; the run ends at once above 500 °F"
    assert words_of(limits["", "oil pressure"]) == "the run ends at once below 10 psi"
    held = [hold(Fraction(value), head) for value in ("450", "450.0001", "500", "500.0001")]
    assert [(each.verdict, each.beyond) for each in held] == [
        ("within limits", False),
        ("outside limits", False),
        ("outside limits", False),
        ("outside limits", True),
    ]
