"""The rules of judging, each as one small errand."""

import pytest

from tests.measurements.sheets import LIMITS, answer, limit_row, sheet, table, verdict

BAND = {"new_min": "1.000", "new_max": "1.010", "service_min": "0.990", "service_max": "1.020"}


@pytest.mark.parametrize(
    ("values", "expected"),
    [
        ("1.005", "within new limits"),
        ("1.001 1.009", "within new limits"),
        ("1.0009", "serviceable"),
        ("0.991", "serviceable"),
        ("0.9909", "too close to call"),
        ("1.0191", "too close to call"),
        ("0.989", "too close to call"),
        ("0.9889", "outside limits"),
        ("1.005 1.0211", "outside limits"),
    ],
)
def test_guard_band_of_one_thousandth(values, expected):
    assert verdict(limit_row("r", **BAND), values, u="0.001") == (expected, "")


def test_a_gauge_too_coarse_for_the_band_decides_nothing_but_what_lies_far_outside():
    row = limit_row("r", new_min="1.000", new_max="1.010")
    assert verdict(row, "1.005", u="0.005") == ("within new limits", "")
    assert verdict(row, "1.005", u="0.0051") == ("not judged", "gauge cannot decide this")
    assert verdict(row, "1.0152", u="0.0051") == ("outside limits", "")


def test_the_uncertainty_is_converted_exactly_with_its_reading():
    row = limit_row("r", new_max="1", rule="guard")
    assert verdict(row, "25.3746", u="0.0254", unit="mm") == ("within new limits", "")
    assert verdict(row, "25.3747", u="0.0254", unit="mm") == ("too close to call", "")


def test_rules_where_no_uncertainty_is_stated():
    row = limit_row("r", **BAND)
    assert verdict({**row, "rule": "guard"}, "1.005", u="0.000") == ("not judged", "uncertainty not stated")
    assert verdict({**row, "rule": "simple"}, "1.005") == ("within new limits", "")
    assert verdict(row, "1.005") == ("within new limits", "uncertainty not stated")
    assert verdict(limit_row("r"), "1.005") == ("not judged", "no limit")


def test_wear_beyond_new_where_the_limit_is_on_the_fit():
    row = limit_row("r", new_min="1.000", new_max="1.010", service_max="1.020", worn="fit", rule="simple")
    assert verdict(row, "1.015") == ("serviceable", "")
    assert verdict(row, "1.021") == ("outside limits", "")
    assert verdict(row, "0.999") == ("not judged", "limit is on the fit")
    assert verdict(row, "0.999 1.021") == ("outside limits", "")


def test_a_row_read_twice_is_judged_twice_and_its_last_reading_makes_the_fit():
    limits = table(
        limit_row("fit", unit="mm", new_min="0.00", new_max="0.50", outer_row="bore", inner_row="pin"),
        limit_row("bore"),
        limit_row("pin"),
    )
    lines = answer(
        limits, sheet("pin,b,1.00,in,", "bore,a,1.02,in,", "pin,a,1.00,in,", "bore,b,9.99,in,", "bore,b,25.908,mm,")
    ).lines

    assert [(line["row"], line["position"]) for line in lines] == [
        *(("pin", "b"), ("bore", "a"), ("pin", "a"), ("bore", "b"), ("bore", "b")),
        *(("fit", "b"), ("fit", "a")),
    ]
    assert lines[3]["minimum"] == "9.99"
    assert (lines[5]["minimum"], lines[5]["maximum"]) == ("0.508", "0.508")
    assert lines[5]["verdict"] == "outside limits"
    assert (lines[6]["minimum"], lines[6]["verdict"]) == ("0.508", "outside limits")


def test_a_fit_is_guarded_by_the_squares_of_its_mates():
    """3, 4 and 5 ten-thousandths: the clearance 0.0015 is inside 0.0010 by exactly the combined U."""
    limits = table(
        limit_row("bore"), limit_row("pin"), limit_row("fit", new_min="0.0010", outer_row="bore", inner_row="pin", rule="guard")
    )
    readings = ["bore,1,1.0015,in,0.0003", "pin,1,1.0000,in,0.0004", "bore,2,1.0015,in,0.0003", "pin,2,1.0000,in,0.00041"]
    lines = answer(limits, sheet(*readings, "bore,3,1.0015,in,0.0003", "pin,3,1.0000,in,")).lines
    assert [line["verdict"] for line in lines[-3:]] == ["within new limits", "too close to call", "not judged"]


def test_figures_too_long_for_a_machine_integer_still_make_a_fit():
    limits = table(limit_row("bore"), limit_row("pin"), limit_row("fit", new_min="0", outer_row="bore", inner_row="pin"))
    lines = answer(limits, sheet("bore,1,1.0000000000000000000000002,in,", "pin,1,1.0000000000000000000000001,in,")).lines
    assert lines[-1]["minimum"] == "0.0000000000000000000000001"


@pytest.mark.parametrize(
    ("values", "unit", "expected"),
    [
        ("1.5 1.25", "in", ("1.25", "1.50", "1.3750")),
        ("1.0001 1.0002 1.0002", "in", ("1.0001", "1.0002", "1.000167")),
        ("0.1 0.1 0.1 0.1 0.1 0.1 0.1 0.102", "in", ("0.100", "0.102", "0.10025")),
        ("-0.0001 .0001", "in", ("-0.0001", "0.0001", "0.000000")),
        ("25.4", "mm", ("1", "1", "1.000")),
        ("63.475", "mm", ("2.499015748031496", "2.499015748031496", "2.49902")),
    ],
)
def test_least_greatest_and_mean_in_the_unit_of_the_row(values, unit, expected):
    (line,) = answer(table(limit_row("r")), sheet(f"r,1,{values},{unit},")).lines
    assert (line["minimum"], line["maximum"], line["mean"]) == expected


def test_a_mean_is_never_coarser_than_what_was_read():
    (line,) = answer(table(limit_row("r", unit="lb")), sheet("r,1,500,g,")).lines
    assert line["mean"] == "1.102"


def test_limits_of_the_second_column_alone_are_a_disagreement():
    row = limit_row("r", new_max="1.000", alt_unit="mm", alt_new_max="25.4", alt_service_max="25.5")
    answered = answer(table(row), sheet("r,1,0.9,in,0.001"))
    assert answered.warnings == ["limits.csv:2: row “r”: columns disagree: service_max none, alt_service_max 25.5 mm"]
    assert answered.lines[0]["reason"] == "columns disagree"
    assert answered.lines[0]["conformity"] == ""


@pytest.mark.parametrize(("alt", "verdict_expected"), [("25.4127", "within new limits"), ("25.4128", "not judged")])
def test_columns_may_differ_by_half_the_coarser_last_digit(alt, verdict_expected):
    assert verdict(limit_row("r", new_max="1.000", alt_unit="mm", alt_new_max=alt), "0.9")[0] == verdict_expected


def test_a_mark_at_the_front_windows_line_ends_and_spaces_are_no_fault():
    limits = "\ufeff" + LIMITS.replace(",", " , ") + '\r\n" r ",p,c, in ,1,2,,,,,,,,\r\n\r\n'
    (line,) = answer(limits, "\ufeffunit,expanded_u,values,row,position\r\n in ,, 1.5  1.6 ,r , a \r\n").lines
    assert (line["row"], line["position"], line["verdict"]) == ("r", "a", "within new limits")
