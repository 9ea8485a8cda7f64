"""A value with its unit as typed, and the plan of planes and directions. Rules: common practice, no source."""

from types import SimpleNamespace

import pytest

from measurements.metrology.errors import NotANumber, UnknownUnit
from measurements.metrology.quantity import split_figure
from measurements.readings.errors import ReadingRefused
from measurements.readings.points import Point, check_plan


@pytest.mark.parametrize(
    ("typed", "value", "unit"),
    [
        ("2.1235 in", "2.1235", "in"),
        ("53.94 mm", "53.94", "mm"),
        ("53.940mm", "53.940", "mm"),
        (" 2.1235 ", "2.1235", "in"),
        ("-0.0004", "-0.0004", "in"),
        ("30 N·m", "30", "N·m"),
        ("120 in3", "120", "in3"),
    ],
)
def test_a_value_is_kept_as_typed_beside_its_unit(typed, value, unit):
    assert split_figure(typed, "in") == (value, unit)


@pytest.mark.parametrize(
    "typed", ["1-1/8", "1 1/8 in", "1/8", "2,1", "2e-3", "2.1.2", "in", "", "\u0662.\u0661", "NaN", "1" * 31]
)
def test_anything_but_a_plain_decimal_is_refused_with_what_to_write(typed):
    with pytest.raises(NotANumber, match=r"in plain decimals, such as 2\.1235|more than 30"):
        split_figure(typed, "in")


@pytest.mark.parametrize(("typed", "words"), [("2.1", "the unit is missing"), ("2.1 furlong", "“furlong” is not known")])
def test_a_unit_that_is_missing_or_not_known_is_refused(typed, words):
    with pytest.raises(UnknownUnit, match=words):
        split_figure(typed)


ROW = SimpleNamespace(planes=["front", "rear"], directions=["0", "90"])
ALL = [Point(plane, direction, "2.4990") for plane in ROW.planes for direction in ROW.directions]


@pytest.mark.parametrize(
    ("planes", "directions", "places"),
    [
        (["front", "rear"], ["0", "90"], [("front", "0"), ("front", "90"), ("rear", "0"), ("rear", "90")]),
        (["front", "rear"], [], [("front", ""), ("rear", "")]),
        ([], ["0", "90"], [("", "0"), ("", "90")]),
        ([], [], [("", "")]),
    ],
)
def test_a_row_is_read_once_at_each_plane_in_each_direction(planes, directions, places):
    row = SimpleNamespace(planes=planes, directions=directions)
    points = [Point(*place, "2.4990") for place in places]

    check_plan(row, points[::-1])

    for left_out in points:
        with pytest.raises(ReadingRefused, match="was not read"):
            check_plan(row, [point for point in points if point != left_out])


@pytest.mark.parametrize(
    ("points", "words"),
    [
        (ALL[:3], "Plane rear, direction 90 was not read"),
        (
            [],
            "Plane front, direction 0; plane front, direction 90; plane rear, direction 0; plane rear, direction 90 was not read",
        ),
        ([*ALL, Point("middle", "0", "2.4990")], "Plane middle, direction 0 is not in the plan"),
        ([*ALL, Point("", "", "2.4990")], "The value is not in the plan"),
        ([*ALL, ALL[0]], "Plane front, direction 0 was entered more than once"),
        ([*ALL[:3], Point("rear", "90", "2 1/2")], "Plane rear, direction 90: “2 1/2” is not a number"),
    ],
)
def test_a_reading_that_misses_the_plan_is_refused_by_name(points, words):
    with pytest.raises(ReadingRefused, match=words):
        check_plan(ROW, points)
