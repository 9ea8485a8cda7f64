"""Form, ISO 286 fits, stacks and expansion against published figures (tests/published/form.py)."""

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.errors import BadFigure, BadLimits, MixedDimensions, NoAnswer, NothingGiven
from measurements.metrology.form.least_squares import least_squares_circle, least_squares_plane
from measurements.metrology.form.lobing import blind_lobes, form_from_vee, two_point_sensitivity, vee_sensitivity
from measurements.metrology.form.runout import bow, eccentricity, runout, throw
from measurements.metrology.form.section import section, worst_out_of_round
from measurements.metrology.form.taper import choke, steepest, taper
from measurements.metrology.iso286.fit import standard_fit
from measurements.metrology.iso286.grades import tolerance, tolerance_by_formula
from measurements.metrology.stack import Member, stack, statistically_within, worst_case_within
from measurements.metrology.thermal import size_at
from tests.published import form as printed


def D(text):
    return Decimal(text)


def test_the_plane_through_points_is_flat_and_a_bump_is_seen():
    grid = [(x, y, 2 * x - y + 3) for x in range(4) for y in range(4)]
    assert least_squares_plane(grid).flatness == pytest.approx(0, abs=1e-12)
    normal = np.array(least_squares_plane(grid).normal)
    assert abs(normal @ np.array([2, -1, -1]) / np.sqrt(6)) == pytest.approx(1)
    corners = [(0, 0, 0.1), (1, 0, -0.1), (0, 1, -0.1), (1, 1, 0.1)]  # a twist: the least-squares plane is z = 0
    assert least_squares_plane(corners).flatness == pytest.approx(0.2)


@pytest.mark.parametrize(("angle", "lobes", "expected"), printed.VEE)
def test_what_a_vee_block_shows(angle, lobes, expected):
    assert abs(vee_sensitivity(lobes, angle)) == pytest.approx(expected, abs=1e-6)


def test_a_vee_block_hides_the_eccentricity_of_the_journal_it_holds():
    assert all(vee_sensitivity(1, angle) == pytest.approx(0, abs=1e-12) for angle in (60, 90, 120))
    assert 5 in blind_lobes(60)
    with pytest.raises(NoAnswer, match="does not show 5 lobes"):
        form_from_vee(0.001, 5, 60)
    assert form_from_vee(0.006, 3, 60) == pytest.approx(0.002)


def test_two_points_never_see_odd_lobes():
    assert [two_point_sensitivity(lobes) for lobes in (2, 3, 4, 5)] == [2, 0, 2, 0]


def test_run_out_on_centres_is_twice_the_eccentricity():
    angles = np.radians(np.arange(0, 360, 30))
    found = throw(list(0.002 * np.cos(angles - np.radians(40)) + 0.0005 * np.cos(2 * angles)))
    assert (found.amount, found.direction_deg, found.indicated) == pytest.approx((0.002, 40, 0.004))
    assert runout([D("0.0012"), D("-0.0008")]) == Fraction("0.002")
    assert eccentricity(D("0.002")) == Fraction("0.001")


def test_a_bent_shaft_is_told_from_one_held_off_centre():
    off = throw([0.001, 0, -0.001, 0])
    assert bow(off, off, off).amount == pytest.approx(0)
    straight = throw([0.0, 0.0, 0.0, 0.0])
    assert bow(straight, off, straight).amount == pytest.approx(off.amount)


def test_out_of_round_and_signed_taper():
    """TM 5-3805-262-34, 4-1: out-of-round 90 degrees apart; TM 9-2815-200-35, p. 6-55: a barrel narrower at the head."""
    planes = {"head": [D("5.1240"), D("5.1244")], "middle": [D("5.1250"), D("5.1251")], "skirt": [D("5.1262"), D("5.1264")]}
    assert section(planes["head"]).out_of_round == Fraction("0.0004")
    assert worst_out_of_round(planes) == ("head", Fraction("0.0004"))
    found = choke(planes, skirt="skirt", head="head")
    assert (found.least, found.greatest) == (Fraction("0.0020"), Fraction("0.0022"))
    assert taper(planes, "skirt", "head").mean == -found.mean
    assert steepest(planes, ["head", "middle", "skirt"])[:2] == ("head", "skirt")


@pytest.mark.parametrize(("nominal", "hole", "shaft", "of_hole", "of_shaft"), printed.ISO_FITS)
def test_iso_fits(nominal, hole, shaft, of_hole, of_shaft):
    found = standard_fit(D(nominal), hole, shaft)
    micrometres = [tuple(int((limit - Fraction(nominal)) * 1000) for limit in mate) for mate in (found.hole, found.shaft)]
    assert micrometres == [of_hole, of_shaft]
    assert found.tightest == Fraction(of_hole[0] - of_shaft[1], 1000)


@pytest.mark.parametrize("nominal", printed.ISO_GRADES)
def test_iso_tolerances_as_tabulated_and_near_their_formula(nominal):
    for grade, expected in zip((6, 7, 8, 9, 11), printed.ISO_GRADES[nominal], strict=True):
        assert tolerance(D(nominal), grade) == expected
        assert tolerance_by_formula(D(nominal), grade) == pytest.approx(expected, rel=0.05)


CHAIN = [
    Member("case", D("10.000"), D("10.004")),
    Member("shaft", D("9.990"), D("9.994"), -1),
    Member("washer", 0, D("0.003"), -1),
]


def test_end_play_of_a_chain():
    gap = stack(CHAIN)
    assert (gap.least, gap.mean, gap.greatest) == (Fraction("0.003"), Fraction("0.0085"), Fraction("0.014"))
    assert gap.half_spread_squared == Fraction("0.002") ** 2 * 2 + Fraction("0.0015") ** 2
    assert statistically_within(gap, D("0.005"), D("0.012"))
    assert not worst_case_within(gap, D("0.005"), D("0.012"))
    assert worst_case_within(gap, D("0.003"), D("0.014"))


@given(st.lists(st.tuples(st.integers(0, 99), st.integers(0, 9), st.sampled_from([1, -1])), min_size=1, max_size=6))
def test_the_statistical_spread_never_exceeds_the_worst_case(members):
    gap = stack([Member("m", low, low + width, direction) for low, width, direction in members])
    assert gap.half_spread_squared <= (gap.greatest - gap.mean) ** 2
    assert gap.least <= gap.mean <= gap.greatest


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: section([]), NothingGiven),
        (lambda: section([D("-1")]), BadFigure),
        (lambda: section([D("NaN")]), BadFigure),
        (lambda: section([D("Infinity")]), BadFigure),
        (lambda: section([1.5]), BadFigure),
        (lambda: section([10**100_000]), BadFigure),
        (lambda: taper({"a": [1], "b": [1, 2]}, "a", "b"), MixedDimensions),
        (lambda: taper({"a": [1]}, "a", "b"), NothingGiven),
        (lambda: least_squares_circle([(0, 0), (1, 1), (2, 2)]), NoAnswer),
        (lambda: least_squares_circle([(0, 0), (1, 1)]), NothingGiven),
        (lambda: least_squares_plane([(0, 0, 0), (1, 1, 1), (2, 2, 2)]), NoAnswer),
        (lambda: least_squares_plane([(0, 0, float("nan"))] * 3), BadFigure),
        (lambda: standard_fit(25, "7H", "g6"), NoAnswer),
        (lambda: standard_fit(501, "H7", "g6"), NoAnswer),
        (lambda: standard_fit(25, "H7", "js6"), NoAnswer),
        (lambda: standard_fit(25, "JS6", "h6"), NoAnswer),
        (lambda: standard_fit(-25, "H7", "g6"), BadFigure),
        (lambda: stack([]), NothingGiven),
        (lambda: stack([Member("m", 2, 1)]), BadLimits),
        (lambda: stack([Member("m", 1, 2, 3)]), BadFigure),
        (lambda: size_at(0, D("1e-6"), 30), BadFigure),
        (lambda: vee_sensitivity(3, 180), BadFigure),
        (lambda: vee_sensitivity(0, 90), BadFigure),
    ],
)
def test_nonsense_is_refused_by_name(ask, error):
    with pytest.raises(error):
        ask()
