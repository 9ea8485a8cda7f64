"""Least, greatest, mean, out-of-round and taper from the points of one reading; NumPy is the oracle."""

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.errors import NothingGiven
from measurements.metrology.limits import LimitRow
from measurements.readings.deriving import derived_u_squared, judge_derived
from measurements.readings.fitting import fit_u_squared, judge_fit
from measurements.readings.judging import Read
from measurements.readings.points import Point

EASY = LimitRow(row="r", part="p", characteristic="c", unit="in", new_min=Decimal(-10), new_max=Decimal(10))


def read_at(figures, u="0", **more):
    """Thousandths of an inch, plane by plane, direction by direction."""
    points = [
        Point(f"plane {plane}", str(90 * direction), f"{value / 1000:.3f}")
        for plane, values in enumerate(figures, start=1)
        for direction, value in enumerate(values)
    ]
    return Read(points, "in", Fraction(u) ** 2, **more)


@st.composite
def sections(draw):
    directions = draw(st.integers(2, 4))
    values = st.lists(st.integers(2400, 2600), min_size=directions, max_size=directions)
    return draw(st.lists(values, min_size=2, max_size=4))


@given(sections())
def test_each_quantity_is_that_of_numpy(figures):
    array, read = np.array(figures) / 1000, read_at(figures)
    tapers = array[-1] - array[0]
    ends = ["plane 1", f"plane {len(figures)}"]
    for quantity, planes, least, greatest in (
        ("least", [], array.min(), array.min()),
        ("greatest", [], array.max(), array.max()),
        ("mean", [], array.mean(), array.mean()),
        ("mean", ["plane 2"], array[1].mean(), array[1].mean()),
        ("out-of-round", [], np.ptp(array, axis=1).max(), np.ptp(array, axis=1).max()),
        ("taper", ends, tapers.min(), tapers.max()),
        ("taper", ends[::-1], (-tapers).min(), (-tapers).max()),
    ):
        judged = judge_derived(EASY, quantity, planes, read)
        assert (float(judged.minimum), float(judged.maximum)) == pytest.approx((least, greatest), abs=1e-12)


@pytest.mark.parametrize(
    ("limit", "verdict"), [("-0.002", "outside limits"), ("-0.003", "within new limits"), ("-0.0025", "outside limits")]
)
def test_a_taper_keeps_its_sign(limit, verdict):
    """A barrel narrower at its second plane by 0.002 one way and 0.003 the other: the steeper of the two decides."""
    row = LimitRow(
        row="r", part="p", characteristic="taper", unit="in", new_min=Decimal(limit), new_max=Decimal(0), rule="simple"
    )
    judged = judge_derived(row, "taper", ["plane 1", "plane 2"], read_at([[2500, 2501], [2498, 2498]]))
    assert (judged.minimum, judged.maximum, judged.verdict) == ("-0.003", "-0.002", verdict)


@pytest.mark.parametrize(("quantity", "times"), [("least", 1), ("mean", 1), ("out-of-round", 2), ("taper", 2)])
def test_a_difference_carries_the_uncertainty_of_both_its_values(quantity, times):
    """JCGM 100, 5.1.2: U of a difference is the root of two times U; a mean is taken no better than its calibration."""
    figures, planes = [[2500, 2502], [2500, 2502]], ["plane 1", "plane 2"]
    assert derived_u_squared(quantity, Fraction("0.0002") ** 2) == times * Fraction("0.0002") ** 2
    value = Decimal(judge_derived(EASY, quantity, planes, read_at(figures)).maximum)
    edge = value + Decimal("0.00025")  # between U = 0.0002 and U·√2 = 0.00028
    row = LimitRow(row="r", part="p", characteristic="c", unit="in", new_max=edge)
    judged = judge_derived(row, quantity, planes, read_at(figures, "0.0002"))
    assert judged.verdict == ("too close to call" if times == 2 else "within new limits")


@pytest.mark.parametrize(
    ("quantity", "planes", "figures", "words"),
    [
        ("taper", ["plane 1", "plane 9"], [[2500], [2500]], "plane 9 was not read"),
        ("taper", [], [[2500], [2500]], "must name the two"),
        ("out-of-round", [], [[2500, 2501], [2500]], "two directions at each plane"),
    ],
)
def test_what_does_not_follow_from_the_points_is_refused(quantity, planes, figures, words):
    with pytest.raises(NothingGiven, match=words):
        judge_derived(EASY, quantity, planes, read_at(figures))


def test_a_fit_stands_on_the_planes_that_its_row_names():
    bore, shaft = read_at([[2502, 2503], [2510, 2511]]), read_at([[2499, 2500], [2480, 2481]])
    every, named = judge_fit(EASY, bore, shaft), judge_fit(EASY, bore, shaft, ["plane 1"], ["plane 1"])
    assert (every.minimum, every.maximum) == ("0.002", "0.031")
    assert (named.minimum, named.maximum, named.mean) == ("0.002", "0.004", "0.00300")


@pytest.mark.parametrize(("outer", "inner", "expected"), [("3", "4", 25), ("0", "4", 0), ("3", "0", 0)])
def test_the_uncertainties_of_the_mates_add_in_squares(outer, inner, expected):
    """JCGM 100, 5.1.2; a fit has none where that of a mate is not stated."""
    assert fit_u_squared(read_at([[1]], outer), read_at([[1]], inner), "in") == expected


@pytest.mark.parametrize(
    ("not_permitted", "outer", "inner", "reason"),
    [
        ("", "the gauge had no calibration", "", "the gauge had no calibration"),
        ("", "it expired", "it expired", "it expired"),
        ("this insert is for a ground journal", "", "it expired", "this insert is for a ground journal; it expired"),
    ],
)
def test_a_fit_is_not_judged_where_a_mate_is_barred_or_the_pair_is_not_permitted(not_permitted, outer, inner, reason):
    judged = judge_fit(EASY, read_at([[2]], barred=outer), read_at([[1]], barred=inner), not_permitted=not_permitted)
    assert (judged.verdict, judged.reason, judged.minimum) == ("not judged", reason, "0.001")
