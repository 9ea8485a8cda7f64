"""Readings that cannot be: refused in words, and nothing is kept."""

from datetime import timedelta

import pytest

from measurements.readings.errors import ReadingRefused
from measurements.readings.models import Reading
from shopfloor.ledger.models import LedgerEvent
from tests.making_gauges import calibrated, make_gauge
from tests.making_people import AT
from tests.making_readings import make_reading, make_row

pytestmark = pytest.mark.django_db
MINUTE = timedelta(minutes=1)


REFUSED = {
    "a fraction": ({}, ["2-1/2"], "The value: “2-1/2” is not a number"),
    "ahead of time": ({"taken_at": AT + 6 * MINUTE}, ["2.4990"], "later than now"),
    "a unit of another kind": ({"unit": "lb"}, ["2.4990"], "lb measures mass and in measures length"),
    "no unit": ({"unit": ""}, ["2.4990"], "unit is missing"),
    "a condition of their own": ({"condition": "as new"}, ["2.4990"], "write one of as received, after rework, as assembled"),
    "a reason without a reading": ({"correction_reason": "oops"}, ["2.4990"], "no reading that it corrects"),
    "Fahrenheit": ({"temperature": "140"}, ["2.4990"], "in °C"),
    "a point without its place": ({"points": [["2.4990"]]}, [], "a plane, a direction and a value"),
    "a figure that is no text": ({"points": [["", "", 2.5]]}, [], "all three as text"),
    "a sequence below zero": ({"sequence": -1}, ["2.4990"], "whole number from 0"),
    "a long story of the set-up": ({"set_up": "x" * 201}, ["2.4990"], "Say it shorter"),
    "half a temperature": (
        {"temperature": "30", "part_coefficient": "0.0000115"},
        ["2.4990"],
        "coefficients of the part and the",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_reading_that_cannot_be_is_refused_in_words_and_nothing_is_kept(mechanic, case):
    fields, values, words = REFUSED[case]
    row = make_row(mechanic)
    with pytest.raises(ReadingRefused, match=words):
        make_reading(row, mechanic, *values, **fields)
    assert not Reading.objects.exists()
    assert not LedgerEvent.objects.filter(kind__startswith="reading").exists()


def test_a_clock_a_little_ahead_is_let_pass(mechanic):
    assert make_reading(make_row(mechanic), mechanic, taken_at=AT + 5 * MINUTE).taken_at == AT + 5 * MINUTE


def test_a_gauge_that_measures_something_else_is_refused(mechanic):
    spring = calibrated(make_gauge(mechanic, number="scale", unit="lbf", range_min="0", range_max="50"), mechanic)
    with pytest.raises(ReadingRefused, match="lbf measures force and in measures length"):
        make_reading(make_row(mechanic), mechanic, gauge=spring)


def test_the_set_up_that_the_data_ask_for_must_be_confirmed(mechanic):
    row = make_row(mechanic, set_up="case halves bolted at full torque")
    with pytest.raises(ReadingRefused, match="case halves bolted at full torque"):
        make_reading(row, mechanic)
    assert make_reading(row, mechanic, set_up=row.set_up).set_up == row.set_up
