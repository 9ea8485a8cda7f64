"""Wear from visit to visit: what must hold for any part. Published figures: tests/published/wear.py."""

import math
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.regression import line, prediction_interval
from measurements.metrology.verdicts import Verdict
from measurements.metrology.wear.advice import Outlook, advise
from measurements.metrology.wear.forecast import Estimate, interval_of, probability_within, value_at, wear_rate
from measurements.metrology.wear.history import Visit, since_rework
from measurements.metrology.wear.rule import clearance_then, hours_left, rate_of_wear

U = Decimal("0.0001")


def journal(*readings, standard=U):
    return since_rework([Visit(1000 * number, Decimal(value), standard=standard) for number, value in enumerate(readings)])


def test_two_readings_of_equal_uncertainty_leave_the_rate_as_uncertain_as_their_difference():
    """JCGM 100, 5.1.2: the difference of two independent readings is uncertain by the root of two times u."""
    rate = wear_rate(journal("2.5000", "2.4990"))
    assert rate.value == Fraction("-0.000001")
    assert rate.error == pytest.approx(math.sqrt(2) * 1e-4 / 1000, rel=1e-12)
    found = interval_of(rate)
    assert (found.high - found.low) / 2 == pytest.approx(1.959964 * rate.error, rel=1e-6)


def test_the_farther_ahead_the_wider():
    points = journal("2.5000", "2.4990")
    near, far = value_at(points, 1000), value_at(points, 3000)
    assert (near.value, far.value) == (Fraction("2.4990"), Fraction("2.4970"))
    assert near.error == pytest.approx(math.sqrt(2) * 1e-4)  # the line stands where the last reading was; a new reading comes on
    assert far.error == pytest.approx(1e-4 * math.sqrt(2**2 + 3**2 + 1))


def test_three_visits_are_a_regression():
    points = journal("2.5000", "2.4993", "2.4990", "2.4979", standard=None)
    hours, values = [point.hours for point in points], [point.value for point in points]
    expected = prediction_interval(line(hours, values), 5000)
    assert interval_of(value_at(points, 5000)) == pytest.approx(expected)
    assert wear_rate(points).degrees == 2


def test_the_scatter_is_never_less_than_the_readings_are_uncertain():
    stated, silent = journal("2.5000", "2.4990", "2.4980"), journal("2.5000", "2.4990", "2.4980", standard=None)
    assert wear_rate(stated).error == pytest.approx(1e-4 / math.sqrt(2_000_000))
    assert wear_rate(silent).error is None
    with pytest.raises(NothingGiven, match="state the uncertainty"):
        interval_of(wear_rate(silent))


def test_rework_starts_the_story_anew():
    """A journal ground at 2000 h: what it wore before says nothing about the new surface."""
    visits = [
        Visit(0, Decimal("2.5000"), standard=U),
        Visit(2000, Decimal("2.4960"), left=Decimal("2.4900"), standard=U),
        Visit(3000, Decimal("2.4895"), standard=U),
    ]
    points = since_rework(visits)
    assert [point.value for point in points] == [Fraction("2.4900"), Fraction("2.4895")]
    assert wear_rate(points).value == Fraction("-0.0000005")
    with pytest.raises(NothingGiven, match="since the last rework"):
        wear_rate(since_rework(visits[:2]))


def test_the_probability_on_the_limit_is_a_half_and_falls_beyond():
    points = journal("2.5000", "2.4990")
    expected = value_at(points, 3000)
    assert probability_within(expected, Decimal("2.4970"), None) == pytest.approx(0.5)
    assert probability_within(expected, Decimal("2.4960"), None) > 0.99
    assert probability_within(expected, Decimal("2.4980"), None) < 0.01
    assert probability_within(expected, Decimal("2.4960"), Decimal("2.4970")) < 0.5


def test_a_reading_known_without_error_is_within_or_not():
    sure = Estimate(Fraction(5), 0.0)
    assert [probability_within(sure, low, high) for low, high in ((4, 6), (5, 6), (6, 7))] == [1.0, 1.0, 0.0]


LAST, FAILING = value_at(journal("2.5000", "2.4990"), 2000), value_at(journal("2.5000", "2.4960"), 2000)


@pytest.mark.parametrize(
    ("expected", "limit", "outlook"),
    [
        (LAST, "2.4950", Outlook.LASTS),
        (LAST, "2.4979", Outlook.DOUBTFUL),
        (FAILING, "2.4950", Outlook.FAILS),
        (None, "2.4950", Outlook.UNKNOWN),
    ],
)
def test_advice_stands_beside_the_verdict(expected, limit, outlook):
    found = advise(Verdict.SERVICEABLE, expected, Decimal(limit), None, 0.95)
    assert (found.verdict, found.outlook) == (Verdict.SERVICEABLE, outlook)
    assert (found.probability is None) is (expected is None)


@given(st.sampled_from(Verdict), st.integers(-40, 40), st.integers(1, 30), st.floats(0.5, 0.999))
def test_no_forecast_changes_a_verdict(verdict, value, error, enough):
    found = advise(verdict, Estimate(Fraction(value), error / 10), -20, 20, enough)
    assert found.verdict is verdict
    assert (found.outlook is Outlook.NOT_ASKED) is (verdict not in (Verdict.WITHIN_NEW, Verdict.SERVICEABLE))


@given(st.integers(0, 100), st.integers(1, 5000), st.integers(0, 100), st.integers(0, 100))
def test_hours_left_are_those_at_which_the_clearance_meets_its_maximum(worn, hours, clearance, room):
    rate = rate_of_wear(worn, hours)
    left = hours_left(clearance, clearance + room, rate)
    if room and not worn:
        assert left is None
    else:
        assert clearance_then(clearance, rate, left) == clearance + room


def test_a_limit_that_wear_moves_away_from_is_never_met():
    assert hours_left(5, 6, -1) is None
    assert hours_left(5, 4, -1) == 1


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: since_rework([]), NothingGiven),
        (lambda: since_rework([Visit(10, 1), Visit(10, 1)]), BadFigure),
        (lambda: since_rework([Visit(-1, 1)]), BadFigure),
        (lambda: since_rework([Visit(0, 1, standard=-1)]), BadFigure),
        (lambda: value_at(journal("1", "2"), 999), BadFigure),
        (lambda: probability_within(LAST, None, None), NothingGiven),
        (lambda: rate_of_wear(1, 0), BadFigure),
        (lambda: rate_of_wear(-1, 10), BadFigure),
        (lambda: advise(Verdict.SERVICEABLE, LAST, 2, None, 0.4), BadFigure),
        (lambda: interval_of(LAST, 0), BadFigure),
    ],
)
def test_nonsense_about_wear_is_refused(ask, error):
    with pytest.raises(error):
        ask()
