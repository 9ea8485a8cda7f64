"""Angles: what the published checks do not reach, properties of mechanism and circle, and refusals."""

from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.angles.firing_order import (
    double_row_order,
    faults_of_opposed,
    faults_of_radial,
    fires_at,
    single_row_order,
)
from measurements.metrology.angles.link_rod import link_rod
from measurements.metrology.angles.openings import closest, down_the_piston, judge_openings, round_the_circle, separation
from measurements.metrology.angles.slider_crank import mean_piston_speed, slider_crank
from measurements.metrology.angles.top_centre import after_top_centre, apart, ignition_advance, top_centre
from measurements.metrology.angles.valve_timing import valve_timing
from measurements.metrology.errors import BadFigure, NoAnswer, NothingGiven
from measurements.metrology.limits import LimitRow
from measurements.metrology.verdicts import Verdict

NAN = Decimal("NaN")
angles = st.fractions(-720, 720, max_denominator=60)
MASTER = slider_crank(5.5, 10.8)
LINK = link_rod(MASTER, 2.6, 40, 8.2, 40)


@given(st.dictionaries(st.text("abcdef", min_size=1, max_size=3), angles, min_size=2, max_size=6), angles)
def test_turning_the_whole_ring_changes_no_separation(openings, turn):
    turned = {name: angle + turn for name, angle in openings.items()}
    assert closest(turned).degrees == closest(openings).degrees
    every_pair = [separation(a, b) for i, a in enumerate(openings.values()) for b in list(openings.values())[i + 1 :]]
    assert closest(openings).degrees == min(every_pair) <= Fraction(360, len(openings))


def test_a_ring_out_of_place_is_named():
    openings = {"top": 10, "second": 130, "third": 355}
    assert [(pair.first, pair.second) for pair in round_the_circle(openings)] == [
        ("top", "second"), ("second", "third"), ("third", "top"),
    ]  # fmt: skip
    assert (closest(openings).first, closest(openings).second, closest(openings).degrees) == ("third", "top", 15)
    assert [pair.degrees for pair in down_the_piston(openings)] == [120, 135]


@pytest.mark.parametrize(
    ("opening", "verdict"),
    [(90, Verdict.SERVICEABLE), (30, Verdict.SERVICEABLE), (Fraction("29.99"), Verdict.OUTSIDE), (359, Verdict.OUTSIDE)],
)
def test_a_retaining_ring_against_the_notch_of_its_pin(opening, verdict):
    row = LimitRow(row="1", part="pin", characteristic="opening from notch", unit="deg", rule="simple", service_min=Decimal(30))
    assert judge_openings({"notch": 0, "opening": opening}, row).verdict == verdict


@given(st.floats(1, 8), st.floats(1.01, 6), st.floats(-720, 720))
def test_the_piston_stays_within_its_stroke_and_moves_as_its_velocity_says(stroke, share, angle):
    crank = slider_crank(stroke, share * stroke)
    assert -1e-9 <= crank.drop(angle) <= stroke + 1e-9
    step = 1e-3
    rate = (crank.drop(angle + step) - crank.drop(angle - step)) / (2 * step) * 57.29577951308232
    assert rate == pytest.approx(crank.velocity(angle), abs=1e-5 * stroke)
    assert crank.velocity(angle) <= crank.fastest()[1] + 1e-9


@given(st.floats(-360, 360))
def test_the_link_piston_moves_as_its_velocity_says(angle):
    step = 1e-3
    rate = (LINK.drop(angle + step) - LINK.drop(angle - step)) / (2 * step) * 57.29577951308232
    assert rate == pytest.approx(LINK.velocity(angle), abs=1e-6)
    assert -1e-9 <= LINK.drop(angle) <= LINK.stroke() + 1e-9


def test_a_link_rod_has_a_top_centre_and_a_stroke_of_its_own():
    assert LINK.top_centre_deg() != pytest.approx(40, abs=0.1)
    assert LINK.stroke() > 5.5
    mirrored = link_rod(MASTER, 2.6, -40, 8.2, -40)
    assert mirrored.top_centre_deg() == pytest.approx(-LINK.top_centre_deg(), abs=1e-9)
    assert mirrored.stroke() == pytest.approx(LINK.stroke())


@given(angles, st.fractions(Fraction(1, 2), Fraction(179, 2), max_denominator=60))
def test_top_centre_lies_between_the_stops_whichever_is_read_first(top, held):
    found = top_centre(top - held, top + held)
    assert (found.reading, found.stopped_at) == (top % 360, held)
    assert top_centre(top + held, top - held) == found


@given(angles, st.fractions(-179, 180, max_denominator=60))
def test_the_wheel_may_rise_or_fall_as_the_engine_turns(top, past):
    assert after_top_centre(top + past, top) == past
    assert after_top_centre(top - past, top, rises_with_turning=False) == past
    assert ignition_advance(top + past, top) == -past


def test_magnetos_apart():
    assert apart((ignition_advance(335, 0), ignition_advance(Decimal("336.5"), 0))) == Fraction("1.5")


@given(*[st.integers(-20, 90)] * 4)
def test_open_times_and_their_middles_add_up(opens, closes, out, shut):
    timing = valve_timing(opens, closes, out, shut)
    assert timing.intake_duration + timing.exhaust_duration == 360 + opens + closes + out + shut
    assert timing.overlap == opens + shut
    middles = timing.intake_centre + timing.exhaust_centre
    assert middles == (timing.intake_duration + timing.exhaust_duration) / 2 - timing.overlap


@given(st.integers(1, 15).map(lambda half: 2 * half + 1), st.integers(0, 40))
def test_in_a_radial_the_crank_stands_at_the_cylinder_that_fires(cylinders, start):
    order = single_row_order(cylinders)
    for cylinder, degrees in fires_at(order).items():
        assert degrees % 360 == Fraction(360 * (cylinder - 1), cylinders)
    turned = order[start % cylinders :] + order[: start % cylinders]
    assert faults_of_radial(turned) == ()


@given(st.sampled_from([6, 10, 14, 18]))
def test_two_rows_fire_in_turn_and_each_row_every_other_cylinder(cylinders):
    order = double_row_order(cylinders)
    assert sorted(order) == list(range(1, cylinders + 1))
    assert all((now + then) % 2 for now, then in pairwise(order))
    in_one_row = [(cylinder + 1) // 2 for cylinder in order if cylinder % 2]
    assert tuple(in_one_row) == single_row_order(cylinders // 2)
    assert faults_of_radial(order, rows=2) == ()


@pytest.mark.parametrize(
    ("faults", "sentence"),
    [
        (lambda: faults_of_radial([1, 3, 5, 4, 2]), "2 fires after 5 in this layout, not 4."),
        (lambda: faults_of_radial([1, 3, 5, 2, 2]), "Cylinder 4 is missing."),
        (lambda: faults_of_opposed([1, 2, 3, 4]), "1 and 2 face each other and must fire one turn apart."),
        (lambda: faults_of_opposed([1, 4, 5, 2, 3, 5]), "Cylinder 5 fires more than once."),
    ],
)
def test_a_wrong_order_is_explained(faults, sentence):
    assert sentence in faults()


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: closest({}), NothingGiven),
        (lambda: closest({"top": 1}), NothingGiven),
        (lambda: separation(NAN, 0), BadFigure),
        (lambda: separation(1.5, 0), BadFigure),
        (lambda: slider_crank(-4, 7), BadFigure),
        (lambda: slider_crank(4, 2), BadFigure),
        (lambda: slider_crank(4, float("inf")), BadFigure),
        (lambda: MASTER.drop(float("nan")), BadFigure),
        (lambda: mean_piston_speed(0, 2700), BadFigure),
        (lambda: mean_piston_speed(4, -1), BadFigure),
        (lambda: link_rod(MASTER, 2.6, 40, 5, 40), BadFigure),
        (lambda: link_rod(MASTER, -1, 40, 8, 40), BadFigure),
        (lambda: link_rod(MASTER, 2.6, float("nan"), 8, 40), BadFigure),
        (lambda: top_centre(10, 370), NoAnswer),
        (lambda: top_centre(10, 190), NoAnswer),
        (lambda: top_centre(NAN, 190), BadFigure),
        (lambda: valve_timing(28, 181, 60, 45), BadFigure),
        (lambda: valve_timing(-90, -90, 60, 45), BadFigure),
        (lambda: single_row_order(8), BadFigure),
        (lambda: single_row_order(1), BadFigure),
        (lambda: double_row_order(16), BadFigure),
        (lambda: double_row_order(10**9 + 2), BadFigure),
        (lambda: faults_of_radial([]), NothingGiven),
        (lambda: faults_of_radial([1, 3, 2], rows=3), BadFigure),
        (lambda: faults_of_opposed([1, 2, 3]), BadFigure),
        (lambda: fires_at([1, 1]), BadFigure),
        (lambda: fires_at([1.5, 2]), BadFigure),
    ],
)
def test_nonsense_is_refused_by_name(ask, error):
    with pytest.raises(error):
        ask()
