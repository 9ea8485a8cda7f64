"""Fasteners beyond the published figures (tests/published/fasteners.py): properties, retries, patterns, nonsense."""

from datetime import date
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.errors import BadFigure, BadLimits, MeasureError, NoAnswer, NothingGiven
from measurements.metrology.fasteners.adapter import applied_by, setting_for
from measurements.metrology.fasteners.bolt import (
    Section,
    bolt_share,
    circle_area,
    shank_and_thread,
    stiffness,
    stretch_under,
    tensile_area_inch,
)
from measurements.metrology.fasteners.castle import NextStep, Stop, Turn, Window, next_step, window
from measurements.metrology.fasteners.passes import passes
from measurements.metrology.fasteners.patterns import opposing_in_rectangle, opposing_pairs, spiral, star
from measurements.metrology.fasteners.preload import nut_factor_from, preload_from_torque, torque_for_preload
from measurements.metrology.fasteners.stretch import After, Finding, Outcome, RetryRule, Step, decide, permanent_set, stretch_read
from measurements.metrology.fasteners.wrench import Fault, Wrench, deviations, faults, usable_range


def D(text):
    return Decimal(text)


POSITIVE = st.integers(1, 10_000).map(lambda hundredths: Fraction(hundredths, 100))


@given(POSITIVE, POSITIVE, POSITIVE, st.integers(0, 90))
def test_a_setting_gives_back_the_torque_wanted(wanted, wrench, adapter, angle):
    setting = setting_for(wanted, wrench, adapter, angle)
    assert applied_by(setting.value, wrench, adapter, angle).value == wanted
    assert setting.value <= wanted
    assert setting.exact == (angle in (0, 60, 90))


def test_which_angles_are_exact_and_which_side_does_not_matter():
    assert setting_for(100, 10, 2, 45).value == setting_for(100, 10, 2, -45).value == setting_for(100, 10, 2, 315).value
    assert float(applied_by(100, 10, 2, 45).value) == pytest.approx(100 * (10 + 2**0.5) / 10, rel=1e-15)
    assert applied_by(100, 10, 2, 120).value == 90
    assert setting_for(100, 10, 0, 45) == setting_for(100, 10, 0, 0)


@given(POSITIVE, POSITIVE, POSITIVE)
def test_torque_and_preload_are_each_others_inverse(torque, diameter, factor):
    preload = preload_from_torque(torque, diameter, factor)
    assert torque_for_preload(preload, diameter, factor) == torque
    assert nut_factor_from(torque, preload, diameter) == factor


def test_stretch_of_a_bolt_of_one_and_of_two_diameters():
    """Hooke's law, computed with Python: 10,000 lbf on 6 in of 1/2 in; 8,000 lbf on 1.2 in of 3/8 in and 0.8 in of 0.0878 in²."""
    plain = [Section(6, circle_area(D("0.5")), 30_000_000)]
    stepped = [Section(D("1.2"), circle_area(D("0.375")), 30_000_000), Section(D("0.8"), D("0.0878"), 30_000_000)]
    assert float(stretch_under(10_000, plain)) == pytest.approx(0.0101859, abs=5e-8)
    assert float(stretch_under(8_000, stepped)) == pytest.approx(0.00532709, abs=5e-9)
    assert stiffness(stepped) * stretch_under(8_000, stepped) == 8_000


@given(st.lists(st.tuples(POSITIVE, POSITIVE, POSITIVE), min_size=1, max_size=4))
def test_a_further_section_always_makes_a_bolt_softer(sizes):
    sections = [Section(*size) for size in sizes]
    assert stiffness([*sections, Section(1, 1, 1)]) < stiffness(sections)
    assert 0 < bolt_share(stiffness(sections), 1) < 1


# An invented rule of an invented engine: two more tries when low, one new bolt in all when high.
RULE = RetryRule(under=(Step("tighten further"), Step("tighten further")), over=(Step("fit another bolt"),))


@pytest.mark.parametrize(
    ("stretches", "finding", "outcome", "action"),
    [
        (["0.0050"], Finding.WITHIN, Outcome.ACCEPT, ""),
        (["0.0039"], Finding.UNDER, Outcome.TRY_AGAIN, "tighten further"),
        (["0.0039", "0.0039", "0.0040"], Finding.WITHIN, Outcome.ACCEPT, ""),
        (["0.0039", "0.0039", "0.0039"], Finding.UNDER, Outcome.NO_STEP_LEFT, ""),
        (["0.0060"], Finding.WITHIN, Outcome.ACCEPT, ""),
        (["0.0061"], Finding.OVER, Outcome.TRY_AGAIN, "fit another bolt"),
        (["0.0061", "0.0061"], Finding.OVER, Outcome.NO_STEP_LEFT, ""),
        (["0.0039", "0.0061", "0.0039"], Finding.UNDER, Outcome.TRY_AGAIN, "tighten further"),
    ],
)
def test_what_follows_comes_from_the_rule(stretches, finding, outcome, action):
    found = decide([D(one) for one in stretches], D("0.0040"), D("0.0060"), RULE)
    assert (found.finding, found.outcome, found.action) == (finding, outcome, action)


def test_another_bolt_starts_the_count_anew_only_where_the_data_say_so():
    anew = RetryRule(under=(Step("tighten further"),), over=(Step("fit another bolt", After.ANEW),))
    tries = [D("0.0039"), D("0.0061"), D("0.0039")]
    assert decide(tries, D("0.0040"), D("0.0060"), anew).outcome is Outcome.TRY_AGAIN
    kept = RetryRule(under=(Step("tighten further"),), over=(Step("fit another bolt"),))
    assert decide(tries, D("0.0040"), D("0.0060"), kept).outcome is Outcome.NO_STEP_LEFT


def test_without_a_rule_nothing_is_tried_again():
    assert decide([D("0.0039")], D("0.0040"), None, RetryRule()).outcome is Outcome.NO_STEP_LEFT
    assert decide([D("99")], D("0.0040"), None, RetryRule()).outcome is Outcome.ACCEPT


def test_readings_after_the_end_are_refused():
    ends = RetryRule(over=(Step("scrap", After.END),))
    for tries in (["0.0050", "0.0050"], ["0.0061", "0.0050"]):
        with pytest.raises(NoAnswer, match="Reading 2"):
            decide([D(one) for one in tries], D("0.0040"), D("0.0060"), ends)


def test_a_reused_bolt_that_has_stayed_longer():
    assert permanent_set(D("2.5000"), D("2.5003"), D("0.0003")).within
    found = permanent_set(D("2.5000"), D("2.50031"), D("0.0003"))
    assert (found.amount, found.within) == (Fraction("0.00031"), False)


@given(st.integers(1, 200))
def test_a_star_reaches_every_fastener_once_and_crosses_the_circle(count):
    order = star(count)
    assert sorted(order) == list(range(1, count + 1))
    if count % 2 == 0:
        assert all((after - before) % count == count // 2 for before, after in zip(order[::2], order[1::2], strict=True))
    elif count > 1:
        assert all((after - before) % count == max(1, count // 2) for before, after in pairwise(order))


def test_opposing_pairs_of_ten():
    assert opposing_pairs(10) == ((1, 6), (3, 8), (5, 10), (2, 7), (4, 9))


@given(st.integers(1, 9), st.integers(1, 9))
def test_a_rectangle_is_tightened_from_the_middle_outward(rows, columns):
    def ring(place):
        return max(abs(2 * place[0] - rows - 1) // 2, abs(2 * place[1] - columns - 1) // 2)

    for order in (spiral(rows, columns), opposing_in_rectangle(rows, columns)):
        assert sorted(order) == [(row, column) for row in range(1, rows + 1) for column in range(1, columns + 1)]
        assert [ring(place) for place in order] == sorted(ring(place) for place in order)


def test_the_spiral_goes_round_clockwise():
    assert spiral(3, 3) == ((2, 2), (1, 2), (1, 3), (2, 3), (3, 3), (3, 2), (3, 1), (2, 1), (1, 1))
    assert spiral(2, 3) == ((1, 2), (2, 2), (1, 3), (2, 3), (2, 1), (1, 1))


def test_opposing_fasteners_of_a_rectangle_lie_across_the_middle():
    order = opposing_in_rectangle(2, 5)
    for (row, column), (other_row, other_column) in zip(order[::2], order[1::2], strict=True):
        assert (row + other_row, column + other_column) == (3, 6)
    assert opposing_in_rectangle(3, 3)[0] == (2, 2)


def test_passes_rise_to_the_final_torque_and_end_with_a_round():
    found = passes(star(4), 200, [D("0.3"), D("0.6"), 1], last_round=(1, 2, 3, 4))
    assert [(one.number, one.torque) for one in found] == [(1, 60), (2, 120), (3, 200), (4, 200)]
    assert [one.order for one in found][1:] == [(1, 3, 2, 4), (1, 3, 2, 4), (1, 2, 3, 4)]


ALLOWED = Window(Fraction(100), Fraction(140))


@pytest.mark.parametrize(
    ("stops", "answer"),
    [
        ([Stop(100, True)], NextStep.LOCK),
        ([Stop(99, False), Stop(120, False)], NextStep.TIGHTEN_ON),
        ([Stop(140, False)], NextStep.CHANGE_PARTS),
        ([Stop(141, False), Stop(130, True)], NextStep.OVER),
        ([Stop(120, False), Stop(110, False, Turn.BACKED_OFF), Stop(130, True)], NextStep.VOID),
    ],
)
def test_a_castle_nut_is_never_slackened_to_align(stops, answer):
    assert next_step(stops, ALLOWED) is answer


def test_all_that_stands_against_a_wrench_is_named():
    wrench = Wrench(50, 250, date(2026, 6, 1), misused=True)
    assert faults(wrench, 251, date(2026, 6, 2)) == (Fault.LAPSED, Fault.MISUSED, Fault.ABOVE_RANGE)
    assert faults(Wrench(50, 250, date(2026, 6, 1)), 250, date(2026, 6, 1)) == ()
    assert faults(Wrench(50, 250, None), 50, date(2026, 6, 1)) == (Fault.NOT_CALIBRATED,)


def test_the_deviation_is_a_share_of_what_the_wrench_gives():
    low, high = deviations([(96, 100), (100, 96)], D("0.04"))
    assert (low.share, low.within, high.share, high.within) == (Fraction(-1, 25), True, Fraction(1, 24), False)


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: setting_for(100, 10, 10, 180), NoAnswer),
        (lambda: setting_for(100, 10, -1), BadFigure),
        (lambda: setting_for(0, 10, 1), BadFigure),
        (lambda: setting_for(D("NaN"), 10, 1), BadFigure),
        (lambda: setting_for(100, 10, 1, 45.0), BadFigure),
        (lambda: setting_for(100, 10, 1, D("Infinity")), BadFigure),
        (lambda: setting_for(10**100_000, 10, 1), BadFigure),
        (lambda: torque_for_preload(-1, 1, 1), BadFigure),
        (lambda: preload_from_torque(1, 0, 1), BadFigure),
        (lambda: stiffness([]), NothingGiven),
        (lambda: stretch_under(1, [Section(1, 0, 1)]), BadFigure),
        (lambda: shank_and_thread(D("0.5"), 1, 2), NoAnswer),
        (lambda: shank_and_thread(D("0.25"), 3, 1), NoAnswer),
        (lambda: tensile_area_inch(D("0.01"), 20), NoAnswer),
        (lambda: stretch_read(2, 1), BadFigure),
        (lambda: decide([], 1, 2, RULE), NothingGiven),
        (lambda: decide([1], 2, 1, RULE), BadLimits),
        (lambda: decide([1], None, None, RULE), BadLimits),
        (lambda: decide([-1], 1, 2, RULE), BadFigure),
        (lambda: permanent_set(1, 2, -1), BadFigure),
        (lambda: star(0), BadFigure),
        (lambda: star(10**9), BadFigure),
        (lambda: star(True), BadFigure),
        (lambda: opposing_pairs(5), BadFigure),
        (lambda: spiral(0, 3), BadFigure),
        (lambda: passes([], 1, [1]), NothingGiven),
        (lambda: passes([1, 1], 1, [1]), BadLimits),
        (lambda: passes([1, 2], 1, [D("0.5"), D("0.5"), 1]), BadLimits),
        (lambda: passes([1, 2], 1, [D("0.5")]), BadLimits),
        (lambda: passes([1, 2], 1, [1], last_round=[1, 3]), BadLimits),
        (lambda: passes([1, 2], 1, []), NothingGiven),
        (lambda: window(2, 1), BadLimits),
        (lambda: window(1, 2, -1), BadFigure),
        (lambda: next_step([], ALLOWED), NothingGiven),
        (lambda: faults(Wrench(2, 1, None), 1, date(2026, 1, 1)), BadLimits),
        (lambda: usable_range(100, D("0.2"), D("1.1")), BadFigure),
        (lambda: deviations([], D("0.04")), NothingGiven),
        (lambda: deviations([(1, 0)], D("0.04")), BadFigure),
    ],
)
def test_nonsense_is_refused(ask, error):
    with pytest.raises(error) as trouble:
        ask()
    assert isinstance(trouble.value, MeasureError)
