"""Where things stand on a strip. The rules are our own: common practice, no source."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest
from django.template.loader import render_to_string
from hypothesis import given
from hypothesis import strategies as st

from measurements.readings.scales import WIDTH
from measurements.readings.strips import strip_of


@dataclass(frozen=True, kw_only=True)
class Row:
    new_min: Decimal | None = None
    new_max: Decimal | None = None
    service_min: Decimal | None = None
    service_max: Decimal | None = None
    unit: str = "mm"
    is_fit: bool = False


BORE = Row(new_min=Decimal("49.990"), new_max=Decimal("50.010"), service_min=Decimal("49.980"), service_max=Decimal("50.030"))
figures = st.decimals(-9999, 9999, places=5, allow_nan=False, allow_infinity=False)
pairs = st.tuples(figures, figures).map(sorted)


@st.composite
def rows(draw):
    """Any limits in order, any of them absent."""
    chain = sorted(draw(st.lists(figures, min_size=4, max_size=4)))
    service_min, new_min, new_max, service_max = (limit if draw(st.booleans()) else None for limit in chain)
    fit = draw(st.booleans())
    return Row(service_min=service_min, new_min=new_min, new_max=new_max, service_max=service_max, is_fit=fit)


@given(rows(), pairs, st.fractions(0, 10))
def test_everything_is_drawn_inside_the_box(row, pair, u):
    strip = strip_of(row, f"{pair[0]:f}", f"{pair[1]:f}", "not judged", u)
    spans = [span for span in (strip.bar, strip.whisker, strip.new_band, strip.service_band) if span]
    places = [mark.x for mark in strip.new + strip.service] + [mark.text_x for mark in strip.new + strip.service]
    assert all(0 <= x <= WIDTH for x in places)
    assert all(span.width >= 0 and span.x >= 0 and span.x + span.width <= WIDTH + 0.02 for span in spans)


@given(rows(), pairs)
def test_what_is_less_never_stands_further_right(row, pair):
    strip = strip_of(row, f"{pair[0]:f}", f"{pair[1]:f}", "not judged")
    drawn = [(Fraction(pair[0]), strip.bar.x), (Fraction(pair[1]), strip.bar.x + strip.bar.width)]
    new = [limit for limit in (row.new_min, row.new_max) if limit is not None]
    service = [limit for limit in (row.service_min, row.service_max) if limit is not None]
    drawn += [(Fraction(limit), mark.x) for limit, mark in zip(new + service, strip.new + strip.service, strict=True)]
    places = [x for _, x in sorted(drawn)]
    assert all(left <= right + 0.02 for left, right in pairwise(places))


@given(rows())
def test_two_numbers_of_a_line_do_not_touch(row):
    strip = strip_of(row, "", "", "not judged")
    for marks in (strip.new, strip.service):
        if len(marks) == 2:
            letters = len(marks[0].text) + len(marks[1].text)
            assert marks[1].text_x - marks[0].text_x >= letters * 3.5


def test_a_value_inside_stands_between_the_lines():
    strip = strip_of(BORE, "49.995", "50.002", "within new limits")
    assert strip.new[0].x < strip.bar.x
    assert strip.bar.x + strip.bar.width < strip.new[1].x
    assert not strip.beyond_left
    assert not strip.beyond_right


def test_a_value_far_off_is_marked_at_its_edge():
    strip = strip_of(BORE, "50.900", "50.900", "outside limits")
    assert strip.beyond_right
    assert strip.bar.x > strip.service[1].x
    assert strip_of(BORE, "40.000", "40.000", "outside limits").beyond_left


def test_a_side_without_a_limit_is_open():
    strip = strip_of(Row(new_max=Decimal("0.02"), service_max=Decimal("0.06")), "0.005", "0.005", "within new limits")
    assert strip.new_band.x == 0
    assert not strip.beyond_left


def test_whiskers_reach_past_the_value_by_the_uncertainty():
    strip = strip_of(BORE, "50.000", "50.000", "within new limits", Fraction("0.005"))
    assert strip.whisker.x < strip.bar.x < strip.whisker.x + strip.whisker.width
    assert strip_of(BORE, "50.000", "50.000", "within new limits").whisker is None


def test_limits_a_hair_apart_stay_two_lines():
    strip = strip_of(Row(new_min=Decimal("50.00000"), new_max=Decimal("50.00001")), "50.000005", "50.000005", "within new limits")
    assert strip.new[1].x - strip.new[0].x > 50


def test_a_fit_is_written_tight_or_loose():
    fit = Row(new_min=Decimal("-0.020"), new_max=Decimal("0.010"), is_fit=True)
    strip = strip_of(fit, "-0.015", "0.005", "within new limits")
    assert [mark.text for mark in strip.new] == ["0.020 T", "0.010 L"]
    assert strip.sentence == "Read 0.015 T to 0.005 L mm; new least 0.020 T; new greatest 0.010 L"
    assert strip.bar.x < strip.zero < strip.bar.x + strip.bar.width


@pytest.mark.parametrize(
    ("row", "figure", "words"),
    [
        (Row(), "2.5", ["no limit given", "Read 2.5 mm; no limit"]),
        (BORE, "", ["nothing read", "Nothing read; new least 49.990"]),
        (BORE, "99", ["off the strip", "Read 99 mm"]),
    ],
)
def test_what_cannot_be_drawn_is_said(row, figure, words):
    page = render_to_string("readings/strip.html", {"strip": strip_of(row, figure, figure, "not judged")})
    assert all(word in page for word in words)
    assert "<title>not judged</title>" in page
