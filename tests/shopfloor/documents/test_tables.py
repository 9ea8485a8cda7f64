"""Cells that a spreadsheet would run are made harmless; figures stay figures."""

import pytest

from shopfloor.documents.tables import csv_bytes, harmless


@pytest.mark.parametrize("cell", ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "=HYPERLINK(A1)", "-", "+"])
def test_a_formula_is_led_by_an_apostrophe(cell):
    assert harmless(cell) == f"'{cell}"


@pytest.mark.parametrize("cell", ["-0.0004", "+2.5", "2.1235", ".5", "", "text", "1-1/8"])
def test_figures_and_words_stay_as_they_are(cell):
    assert harmless(cell) == cell


def test_a_table_is_utf8_with_a_header():
    assert csv_bytes(["part", "taper"], [["barrel “2”", "-0.002"]]).decode() == "part,taper\r\nbarrel “2”,-0.002\r\n"
