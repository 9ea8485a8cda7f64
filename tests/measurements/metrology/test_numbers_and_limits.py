"""Units, rounding, typed figures, limits by size class, what is left to them, and fits in L and T."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.e29 import rounded, rounded_to_digits, rounded_to_places, rounding_method, significant_digits
from measurements.metrology.errors import BadFigure, NoAnswer, NotANumber, OtherDimension
from measurements.metrology.fits import fit_of_limits, loose_or_tight, read_loose_or_tight
from measurements.metrology.limits import LimitRow
from measurements.metrology.margin import margin
from measurements.metrology.numbers import read_number
from measurements.metrology.quantity import read_quantity
from measurements.metrology.rounding import to_step
from measurements.metrology.size_class import in_size_class
from measurements.metrology.temperature import SCALES, temperature, temperature_difference
from measurements.metrology.units import DIMENSIONS, converted

typed = st.decimals(-9999, 9999, places=5)
steps = st.sampled_from([Decimal("0.0001"), Decimal("0.0005"), Decimal("0.01"), Decimal(50), Fraction(1, 64)])


@given(typed, steps)
def test_rounding_goes_to_the_nearest_multiple_and_stays_there(value, step):
    found = rounded(value, step)
    assert abs(found - Fraction(value)) * 2 <= Fraction(step)
    assert (found / Fraction(step)).denominator == 1
    assert rounded(found, step) == found
    assert rounded(-value, step) == -found


@given(st.integers(-(10**6), 10**6), st.integers(1, 999))
def test_rounding_by_whole_numbers_agrees_with_rounding_of_rationals(value, step):
    assert to_step(value, step) == rounded(value, step)


@given(st.integers(-500, 500), steps)
def test_a_tie_goes_to_the_even_multiple(half, step):
    found = rounded(Fraction(2 * half + 1, 2) * Fraction(step), step) / Fraction(step)
    assert found % 2 == 0


@given(typed, st.integers(1, 8))
def test_significant_digits_keep_a_figure_to_its_size(value, digits):
    found = rounded_to_digits(value, digits)
    assert abs(found - Fraction(value)) * 2 * 10 ** (digits - 1) <= abs(Fraction(value))


@pytest.mark.parametrize(
    ("value", "digits", "expected"),
    [("0.00021251", 3, "0.000213"), ("99.96", 3, "100"), ("-2.5", 1, "-2"), ("0", 4, "0"), ("1250", 2, "1200"), ("10", 1, "10")],
)
def test_the_first_significant_digit_is_found(value, digits, expected):
    assert rounded_to_digits(Decimal(value), digits) == Fraction(expected)


@pytest.mark.parametrize(("figure", "digits"), [("0.0021", 2), ("2.4990", 5), ("-12", 2), (".50", 2), ("0105", 3)])
def test_digits_that_mean_something(figure, digits):
    assert significant_digits(figure) == digits


def test_a_whole_number_with_trailing_zeros_is_ambiguous():
    """ASTM E29-02, 3.1: 140 000 may have from two to six."""
    with pytest.raises(NoAnswer, match="2 to 6"):
        significant_digits("140000")


def test_the_rounding_method_rounds_to_the_last_place_of_the_limits():
    assert rounding_method(Decimal("2.5004"), Decimal("2.498"), Decimal("2.500"))
    assert not rounding_method(Decimal("2.5006"), Decimal("2.498"), Decimal("2.500"))
    assert rounding_method(Decimal("2.54"), None, Decimal("2.5"))
    assert not rounding_method(Decimal("2.54"), None, Decimal("2.5"), places=2)


PAIRS = [(dimension, one, other) for dimension, units in DIMENSIONS.items() for one in units for other in units]


@given(typed, st.sampled_from(PAIRS))
def test_a_unit_round_trip_moves_nothing(value, pair):
    _, one, other = pair
    assert converted(converted(value, one, other), other, one) == Fraction(value)


@given(st.decimals(-40, 2000, places=3), st.sampled_from(sorted(SCALES)), st.sampled_from(sorted(SCALES)))
def test_a_temperature_round_trip_moves_nothing(celsius, one, other):
    reading = temperature(celsius, "°C", one)
    assert temperature(temperature(reading, one, other), other, one) == reading
    warmer = temperature(celsius + 1, "°C", one)
    rise = temperature(warmer, one, other) - temperature(reading, one, other)
    assert rise == temperature_difference(warmer - reading, one, other)


def test_displayed_figures_are_not_judged():
    """450 lbf·in shown as 50.84 N·m and read back would be another limit."""
    shown = rounded_to_places(converted(450, "lbf·in", "N·m"), 2)
    assert converted(shown, "N·m", "lbf·in") != 450


@pytest.mark.parametrize(
    ("text", "meant"), [("1-1/8", "1.125"), ("1 3/16", "1.1875"), ("5/64", "0.078125"), ("1/3", None), ("1/0", None)]
)
def test_a_fraction_is_refused_with_its_decimals(text, meant):
    with pytest.raises(NotANumber, match="plain decimals") as refused:
        read_number(text)
    assert (f"here {meant}" in str(refused.value)) if meant else ("here" not in str(refused.value))


def test_a_quantity_is_its_figure_and_unit():
    found = read_quantity("53.94 mm")
    assert (str(found.value), found.dimension, found.in_unit("in")) == ("53.94", "length", Fraction("53.94") / Fraction("25.4"))
    with pytest.raises(OtherDimension):
        found.in_unit("lb")


def row(**more):
    return LimitRow(row="r", part="p", characteristic="c", unit="in", **more)


D = Decimal


def test_what_is_left_on_each_side():
    journal = row(new_min=D("2.499"), new_max=D("2.500"), service_min=D("2.497"))
    found = margin(journal, [D("2.4982"), D("2.4986")])
    assert (found.below.left, found.below.allowance, found.below.share) == (
        Fraction("0.0012"),
        Fraction("0.002"),
        Fraction("0.6"),
    )
    assert (found.above.left, found.above.allowance, found.above.share) == (Fraction("0.0014"), None, None)
    assert found.nearest is found.below
    assert margin(journal, [D("2.4960")]).below.share == Fraction("-0.5")
    assert margin(journal, [D("2.4995")]).below.share > 1  # within new limits more is left than the allowance


def test_where_wear_is_judged_on_the_fit_the_part_has_no_margin():
    """TM 9-2520-234-35, paragraph 235: two asterisks."""
    found = margin(row(new_min=D("1.5"), new_max=D("1.6"), worn="fit"), [D("1.7")])
    assert (found.below, found.above) == (None, None)
    with pytest.raises(NoAnswer, match="No limit holds"):
        _ = found.nearest


@given(st.integers(-20, 20), st.integers(0, 20), st.sampled_from(["service_max", "service_min"]))
def test_what_is_left_shrinks_step_by_step_with_wear(start, wear, side):
    way = 1 if side == "service_max" else -1
    held = row(new_min=D(-1), new_max=D(1), **{side: D(way * 10)})
    before, after = (margin(held, [D(value)]) for value in (start, start + way * wear))
    sides = ("above", "below") if way > 0 else ("below", "above")
    assert getattr(before, sides[0]).left - getattr(after, sides[0]).left == wear
    assert getattr(after, sides[1]).left - getattr(before, sides[1]).left == wear


def test_a_size_class_moves_every_limit_and_drops_the_second_column():
    standard = row(new_min=D("2.499"), new_max=D("2.500"), service_min=D("2.4980"), alt_unit="mm", alt_new_max=D("63.500"))
    assert in_size_class(standard, D("-0.254"), "mm").new_max == D("2.490")
    assert in_size_class(standard, D("-0.010")).limits == (D("2.489"), D("2.490"), D("2.4880"), None)
    assert in_size_class(standard, D("-0.010")).alt_limits == (None,) * 4
    assert str(in_size_class(standard, D(0)).service_min) == "2.4980"


def test_best_worst_and_mean_of_a_fit_in_letters():
    found = fit_of_limits(D("25.000"), D("25.021"), D("25.008"), D("25.021"))
    assert (loose_or_tight(found.tightest), loose_or_tight(found.loosest), loose_or_tight(found.mean)) == (
        "0.021T",
        "0.013L",
        "0.004T",
    )
    assert found.kind == "transition"
    with pytest.raises(NotANumber, match="L or T"):
        read_loose_or_tight("0.0005")


@given(typed)
def test_letters_round_trip(value):
    assert read_loose_or_tight(loose_or_tight(value)) == Fraction(value)


@pytest.mark.parametrize(
    "ask",
    [
        lambda: in_size_class(row(new_min=D("2.5")), D("-3")),
        lambda: in_size_class(row(new_min=D("2.5")), D("0.25"), "mm"),
        lambda: in_size_class(row(new_min=D("0.001"), outer_row="a", inner_row="b"), D("0.01")),
        lambda: temperature(D("-500"), "°F", "K"),
    ],
)
def test_what_cannot_be_is_refused(ask):
    with pytest.raises(BadFigure):
        ask()
