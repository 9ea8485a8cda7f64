"""Running: what the published checks do not reach, properties of air and of corrections, and refusals."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.errors import BadFigure, MixedDimensions, NoAnswer, NothingGiven, ReversedLimits
from measurements.metrology.held import hold
from measurements.metrology.limits import LimitRow
from measurements.metrology.running.atmosphere import geopotential, pressure_altitude, standard_air
from measurements.metrology.running.corrected_power import CORRECTIONS, correct, factor
from measurements.metrology.running.humid_air import density, saturation_pressure, vapour_in_hg, vapour_pressure
from measurements.metrology.running.magnetos import magneto_check
from measurements.metrology.running.oil import consumption, greatest_consumption, oil_used
from measurements.metrology.running.rise import rises, steepest
from measurements.metrology.verdicts import Reason, Verdict

NAN, INFINITE = Decimal("NaN"), Decimal("Infinity")
CLASSIC = CORRECTIONS["classic 460/519"]
corrections = pytest.mark.parametrize("correction", CORRECTIONS.values(), ids=CORRECTIONS)


def D(text):
    return Decimal(text)


def row(unit, **limits):
    return LimitRow(row="1", part="engine", characteristic="a reading", unit=unit, rule="simple", **limits)


@corrections
def test_a_result_says_which_correction_with_which_numbers(correction):
    found = correct(180, D("29.10"), D("0.50"), 85, correction)
    assert found.name == correction.name
    assert "sqrt" in found.formula or "^" in found.formula
    for number in (correction.standard_dry_pressure, correction.standard_temperature, correction.zero):
        assert number in found.constants.values()
        assert str(number) in found.formula
    assert found.power == 180 * Fraction(found.factor)


def test_the_corrections_disagree_by_five_percent_on_a_cool_dense_day():
    """Classic 0.99427 against SAE J1349 0.94809: 4.9 percent (shared checks, B10)."""
    factors = [factor(D("30.10"), D("0.1525"), 55, CORRECTIONS[name]) for name in ("classic 460/520", "SAE J1349 June 1990")]
    assert float(factors[0] / factors[1]) == pytest.approx(1.049, abs=5e-4)


@corrections
@given(st.integers(2400, 3100), st.integers(0, 150), st.integers(-20, 110))
def test_thinner_warmer_or_wetter_air_is_corrected_upwards(correction, barometer, vapour, air):
    here = factor(Fraction(barometer, 100), Fraction(vapour, 100), air, correction)
    assert factor(Fraction(barometer - 1, 100), Fraction(vapour, 100), air, correction) > here
    assert factor(Fraction(barometer, 100), Fraction(vapour + 1, 100), air, correction) > here
    assert factor(Fraction(barometer, 100), Fraction(vapour, 100), air + 1, correction) > here


@given(st.floats(-5000, 32000), st.floats(-5000, 32000))
def test_pressure_altitude_undoes_the_atmosphere_and_pressure_falls_with_height(height, other):
    assert pressure_altitude(standard_air(height).pressure_pa) == pytest.approx(height, abs=1e-6)
    if height < other - 1e-3:
        assert standard_air(height).pressure_pa > standard_air(other).pressure_pa


def test_layers_meet_and_the_air_above_11_km_is_equally_cold():
    for base in (11_000, 20_000):
        below, above = standard_air(base - 1e-6), standard_air(base)
        assert below.pressure_pa == pytest.approx(above.pressure_pa, rel=1e-9)
        assert below.temperature_k == pytest.approx(216.65)
    assert standard_air(32_000).temperature_k == pytest.approx(228.65)  # ISO 2533, from memory


@given(st.floats(0, 60), st.floats(0, 99), st.floats(60_000, 105_000))
def test_humid_air_is_lighter_than_dry_air(air, humidity, pressure):
    assert density(pressure, air, humidity + 1) < density(pressure, air, humidity)
    assert vapour_pressure(humidity, air) < saturation_pressure(air)


def test_oil_used_between_two_levels():
    used = oil_used(D("11.5"), [1, D("0.5")], D("11.75"))
    assert (used, consumption(used, D("2.5"))) == (Fraction("1.25"), Fraction("0.5"))
    assert consumption(0, 1) == 0


@given(st.lists(st.fractions(0, 5), max_size=6), st.fractions(Fraction(1, 10), 50))
def test_oil_goes_in_or_out_and_the_rate_times_the_hours_is_what_went(added, hours):
    used = oil_used(0, added, 0)
    assert used == sum(added, Fraction())
    assert consumption(used, hours) * hours == used


def test_magneto_drops_and_their_difference():
    found = magneto_check(1700, 1600, 1575)
    assert (found.left_drop, found.right_drop, found.difference, found.greater_drop) == (100, 125, 25, 125)
    assert not found.live_lead_suspected
    assert magneto_check(1700, 1700, 1600).live_lead_suspected


@given(st.integers(1, 3000), st.integers(0, 3000), st.integers(0, 3000))
def test_changing_left_for_right_changes_no_difference(both, left, right):
    assert magneto_check(both, left, right).difference == magneto_check(both, right, left).difference == abs(left - right)


def test_the_steepest_stretch_of_a_warm_up():
    times, degrees = [0, D("0.5"), 2, 3], [70, 80, 140, 130]
    assert [stretch.rate for stretch in rises(times, degrees)] == [20, 40, -10]
    assert (steepest(times, degrees).began, steepest(times, degrees).rate) == (Fraction("0.5"), 40)


@given(st.lists(st.integers(-99, 999), min_size=2, max_size=8))
def test_the_steepest_stretch_is_never_gentler_than_the_whole(readings):
    times = range(0, 2 * len(readings), 2)
    assert steepest(times, readings).rate >= Fraction(readings[-1] - readings[0], times[-1])


@pytest.mark.parametrize(
    ("values", "limits", "verdict"),
    [
        ([magneto_check(1700, 1575, 1600).greater_drop], row("rpm", service_max=D(125)), Verdict.SERVICEABLE),
        ([magneto_check(1700, D("1574.9"), 1600).greater_drop], row("rpm", service_max=D(125)), Verdict.OUTSIDE),
        ([consumption(1, 3)], row("qt/h", service_max=D("0.3333")), Verdict.OUTSIDE),
        ([consumption(1, 3)], row("qt/h", new_max=D("0.3334")), Verdict.WITHIN_NEW),
        ([Fraction(1, 3), Fraction(2, 3)], row("hp", service_min=D("0.4")), Verdict.OUTSIDE),
    ],
)
def test_what_was_computed_is_judged_by_the_same_rules_as_what_was_read(values, limits, verdict):
    assert hold(values, limits).verdict == verdict


def test_an_uncertainty_as_wide_as_the_room_left_decides_nothing():
    guarded = LimitRow(row="1", part="engine", characteristic="drop", unit="rpm", service_max=D(125))
    assert hold([120], guarded, 5).verdict == Verdict.SERVICEABLE
    assert hold([120], guarded, Fraction(501, 100)).verdict == Verdict.TOO_CLOSE
    assert hold([120], guarded).reasons == (Reason.UNCERTAINTY_NOT_STATED,)


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: standard_air(float("nan")), BadFigure),
        (lambda: standard_air(32_001), NoAnswer),
        (lambda: geopotential(-5001), NoAnswer),
        (lambda: pressure_altitude(0), BadFigure),
        (lambda: pressure_altitude(1), NoAnswer),
        (lambda: saturation_pressure(-1), NoAnswer),
        (lambda: saturation_pressure(374), NoAnswer),
        (lambda: vapour_pressure(101, 20), BadFigure),
        (lambda: vapour_pressure(-1, 20), BadFigure),
        (lambda: vapour_in_hg(50, float("inf")), BadFigure),
        (lambda: density(1000, 40, 100), BadFigure),
        (lambda: correct(-1, 29, 0, 60, CLASSIC), BadFigure),
        (lambda: correct(180.0, 29, 0, 60, CLASSIC), BadFigure),
        (lambda: correct(180, 0, 0, 60, CLASSIC), BadFigure),
        (lambda: correct(180, 29, 29, 60, CLASSIC), BadFigure),
        (lambda: correct(180, 29, D("-0.1"), 60, CLASSIC), BadFigure),
        (lambda: correct(180, 29, 0, -460, CLASSIC), BadFigure),
        (lambda: correct(180, 29, 0, NAN, CLASSIC), BadFigure),
        (lambda: correct(180, D("1e-900"), 0, 60, CLASSIC), BadFigure),
        (lambda: correct(180, 10**1_000_000, 0, 60, CLASSIC), BadFigure),
        (lambda: oil_used(1, [], 2), BadFigure),
        (lambda: oil_used(1, [-1], 0), BadFigure),
        (lambda: consumption(1, 0), BadFigure),
        (lambda: consumption(INFINITE, 1), BadFigure),
        (lambda: greatest_consumption(180, 0, D("7.4")), BadFigure),
        (lambda: magneto_check(0, 0, 0), BadFigure),
        (lambda: magneto_check(1700, -1, 1600), BadFigure),
        (lambda: rises([0, 1], [70]), MixedDimensions),
        (lambda: rises([0, 0], [70, 80]), MixedDimensions),
        (lambda: rises([0], [70]), NothingGiven),
        (lambda: steepest([], []), NothingGiven),
        (lambda: hold([], row("rpm")), NothingGiven),
        (lambda: hold([1.5], row("rpm")), BadFigure),
        (lambda: hold([1], row("rpm"), -1), BadFigure),
        (lambda: hold([1], row("rpm", new_min=D(2), new_max=D(1))), ReversedLimits),
    ],
)
def test_nonsense_is_refused_by_name(ask, error):
    with pytest.raises(error):
        ask()
