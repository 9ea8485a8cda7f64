"""Crank sets: verdicts on pairs and cylinders, properties of balance and volumes, and refusals."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.crankset.balance import (
    Mass,
    couple_about,
    permissible_unbalance,
    static_unbalance,
    weight_to_add,
)
from measurements.metrology.crankset.compression import judge_against_master, least_share, orifice_for, reading
from measurements.metrology.crankset.displacement import (
    clearance_for_ratio,
    clearance_volume,
    compression_ratio,
    displacement,
)
from measurements.metrology.crankset.weights import (
    bob_weight,
    judge_opposing,
    opposing_differences,
    rod_ends,
    spread,
)
from measurements.metrology.errors import BadFigure, MixedDimensions, NothingGiven
from measurements.metrology.limits import LimitRow
from measurements.metrology.running.torque import power_of, torque_of
from measurements.metrology.verdicts import Reason, Verdict

NAN = Decimal("NaN")
WEIGHTS = {"1": 1204, "2": Decimal("1204.5"), "3": 1199, "4": 1210}
FACING = [("1", "2"), ("3", "4")]
ALIKE = LimitRow(row="1", part="rod", characteristic="difference", unit="g", rule="simple", new_max=Decimal(11))
grams = st.integers(1, 5000)


def D(text):
    return Decimal(text)


def test_opposing_cylinders_are_held_against_a_limit():
    assert [pair.difference for pair in opposing_differences(WEIGHTS, FACING)] == [Fraction("-0.5"), -11]
    assert judge_opposing(WEIGHTS, FACING, ALIKE).verdict == Verdict.WITHIN_NEW
    assert judge_opposing({**WEIGHTS, "4": D("1210.001")}, FACING, ALIKE).verdict == Verdict.OUTSIDE
    assert spread(WEIGHTS) == 11


@given(st.lists(grams, min_size=2, max_size=2), st.integers(-100, 5000))
def test_the_same_weight_added_to_both_changes_no_difference(pair, added):
    first, second = (weight + max(added, 0) for weight in pair)
    found = opposing_differences({"a": first, "b": second}, [("a", "b")])[0].difference
    assert found == pair[0] - pair[1]
    assert abs(found) == spread({"a": first, "b": second})


@given(grams, grams, st.integers(0, 100))
def test_a_rod_is_the_sum_of_its_ends_and_counts_between_its_extremes(big, small, percent):
    ends = rod_ends(big + small, big)
    assert (ends.big, ends.small) == (big, small)
    bob = bob_weight([ends.big], [ends.small], Fraction(percent, 100))
    assert big <= bob <= big + small


def test_evenly_spread_weights_balance_and_one_missing_shows_opposite_itself():
    three = [Mass(str(angle), 2.0, 3.0, angle) for angle in (0, 120, 240)]
    assert static_unbalance(three).amount == pytest.approx(0, abs=1e-12)
    assert static_unbalance(three[:2]).amount == pytest.approx(6)
    assert static_unbalance(three[:2]).direction_deg == pytest.approx(60)


def test_a_crank_still_on_knife_edges_may_carry_a_couple():
    ends = [Mass("front", 1, 2, 0, 0), Mass("rear", 1, 2, 180, 10)]
    assert static_unbalance(ends).amount == pytest.approx(0, abs=1e-12)
    assert couple_about(ends).amount == pytest.approx(20)
    assert couple_about(ends, 4).amount == pytest.approx(20)  # a pure couple is the same about every station
    assert couple_about(ends).direction_deg == pytest.approx(180)


masses = st.lists(st.builds(Mass, st.just("m"), st.floats(0.1, 9), st.floats(0.1, 9), st.floats(0, 359)), min_size=1, max_size=5)


@given(masses, st.floats(0.5, 9))
def test_what_is_to_be_added_undoes_the_unbalance(listed, radius):
    extra = weight_to_add(static_unbalance(listed), radius)
    assert static_unbalance([*listed, Mass("added", extra.amount, radius, extra.direction_deg)]).amount == pytest.approx(
        0, abs=1e-9
    )


@given(st.integers(1, 9999), st.integers(1, 9999))
def test_ratio_and_clearance_undo_each_other(swept, clearance):
    assert clearance_for_ratio(swept, compression_ratio(swept, clearance)) == clearance


@given(st.floats(1, 9), st.floats(1, 9), st.integers(1, 18))
def test_displacement_grows_with_cylinders_and_with_the_square_of_the_bore(bore, stroke, cylinders):
    assert displacement(bore, stroke, cylinders) == pytest.approx(cylinders * displacement(bore, stroke))
    assert displacement(2 * bore, stroke) == pytest.approx(4 * displacement(bore, stroke))


@given(st.floats(0, 500), st.floats(1, 3000))
def test_power_and_torque_undo_each_other(power, rpm):
    assert power_of(torque_of(power, rpm), rpm) == pytest.approx(power)


def test_a_cylinder_is_as_good_as_the_master_orifice_or_it_is_not():
    found = judge_against_master({"1": 72, "2": 43, "3": D("42.99")}, 43)
    assert [judgement.verdict for judgement in found.values()] == [Verdict.SERVICEABLE, Verdict.SERVICEABLE, Verdict.OUTSIDE]
    assert found["2"].reasons == (Reason.UNCERTAINTY_NOT_STATED,)


@given(st.integers(0, 80), st.integers(0, 80), st.integers(1, 9))
def test_a_stated_uncertainty_never_lets_a_cylinder_pass_that_did_not(held, master, uncertainty):
    plain = judge_against_master({"1": held}, master)["1"].verdict
    guarded = judge_against_master({"1": held}, master, 80, uncertainty)["1"].verdict
    assert guarded in {plain, Verdict.TOO_CLOSE}
    assert (guarded == Verdict.TOO_CLOSE) == (
        abs(held - master) < uncertainty or (plain == Verdict.OUTSIDE and master - held <= uncertainty)
    )


@given(st.integers(0, 80), st.integers(1, 200))
def test_holding_more_loses_less(held, supply):
    if held < supply:
        assert reading(held + 1, supply).loss_percent < reading(held, supply).loss_percent <= 100


def test_the_weakest_cylinder_is_named():
    assert least_share({"1": 150, "2": 112, "3": 149}) == ("2", Fraction(112, 150))


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: rod_ends(100, 100), BadFigure),
        (lambda: rod_ends(NAN, 1), BadFigure),
        (lambda: bob_weight([], [1], 1), NothingGiven),
        (lambda: bob_weight([1], [-1], 1), BadFigure),
        (lambda: bob_weight([1], [1], 2), BadFigure),
        (lambda: spread({}), NothingGiven),
        (lambda: spread({"1": 0}), BadFigure),
        (lambda: opposing_differences(WEIGHTS, []), NothingGiven),
        (lambda: opposing_differences(WEIGHTS, [("1", "9")]), NothingGiven),
        (lambda: opposing_differences(WEIGHTS, [("1", "1")]), MixedDimensions),
        (lambda: opposing_differences(WEIGHTS, [("1", "2"), ("2", "3")]), MixedDimensions),
        (lambda: static_unbalance([]), NothingGiven),
        (lambda: static_unbalance([Mass("m", -1, 1, 0)]), BadFigure),
        (lambda: static_unbalance([Mass("m", 1, float("inf"), 0)]), BadFigure),
        (lambda: couple_about([Mass("m", 1, 1, 0)], float("nan")), BadFigure),
        (lambda: weight_to_add(static_unbalance([Mass("m", 1, 1, 0)]), 0), BadFigure),
        (lambda: permissible_unbalance(6.3, 1, 0), BadFigure),
        (lambda: displacement(-5, 4), BadFigure),
        (lambda: displacement(5, 4, 0), BadFigure),
        (lambda: displacement(5, 4, 1.5), BadFigure),
        (lambda: clearance_volume([]), NothingGiven),
        (lambda: clearance_volume([3, -3]), BadFigure),
        (lambda: compression_ratio(90, 0), BadFigure),
        (lambda: clearance_for_ratio(90, 1), BadFigure),
        (lambda: reading(81), BadFigure),
        (lambda: reading(-1), BadFigure),
        (lambda: reading(0, 0), BadFigure),
        (lambda: orifice_for(0), BadFigure),
        (lambda: judge_against_master({}, 43), NothingGiven),
        (lambda: judge_against_master({"1": 72}, 81), BadFigure),
        (lambda: judge_against_master({"1": 72}, 43, 80, -1), BadFigure),
        (lambda: least_share({"1": 150}), NothingGiven),
        (lambda: torque_of(180, 0), BadFigure),
        (lambda: power_of(-1, 2700), BadFigure),
    ],
)
def test_nonsense_is_refused_by_name(ask, error):
    with pytest.raises(error):
        ask()
