"""Figures on a page are short, and say when something was cut."""

from decimal import Decimal

import pytest

from measurements.metrology.limits import LimitRow
from measurements.readings.wording import probability, shown

BORE = LimitRow(row="bore", part="rod", characteristic="bore", unit="in", new_min=Decimal("1.1254"), new_max=Decimal("1.1260"))
FIT = LimitRow(row="fit", part="pin", characteristic="fit", unit="in", new_max=Decimal("0.0019"), outer_row="a", inner_row="b")


@pytest.mark.parametrize(
    ("figure", "row", "expected"),
    [
        ("1.1257", BORE, "1.1257"),
        ("1.12570", BORE, "1.12570"),
        ("1.125944881889764", BORE, "about 1.125945"),
        ("0.001644881889763780", FIT, "about 0.001645 L"),
        ("-0.001644881889763780", FIT, "about 0.001645 T"),
        ("-0.0004", FIT, "0.0004 T"),
        ("", BORE, ""),
    ],
)
def test_a_figure_is_cut_two_places_behind_its_limits(figure, row, expected):
    assert shown(figure, row) == expected


@pytest.mark.parametrize(
    ("figure", "expected"),
    [
        ("0.9865010196836991", "0.9865"),
        ("0.00000000000000062", "below 0.0001"),
        ("1", "above 0.9999"),
        ("0.9999000001", "above 0.9999"),
        ("0.9999", "0.9999"),
        ("0.0001", "0.0001"),
        ("", ""),
    ],
)
def test_a_probability_is_never_shown_as_certain(figure, expected):
    assert probability(figure) == expected
