"""Uncertainty, guard bands and risks against JCGM 100, JCGM 106 and published tables (tests/published/uncertainty.py)."""

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.errors import BadFigure, BadLimits, NoAnswer, NothingGiven
from measurements.metrology.limits import LimitRow, criterion
from measurements.metrology.uncertainty.budget import combined, effective_degrees, expanded
from measurements.metrology.uncertainty.components import (
    Component,
    arcsine,
    from_certificate,
    rectangular,
    repeatability,
    resolution,
    triangular,
)
from measurements.metrology.uncertainty.gauge_choice import Gauge, can_decide, deciding_gauges
from measurements.metrology.uncertainty.guard import (
    guard_for_risk,
    guard_from_share,
    guarded_acceptance,
    simple_acceptance,
    two_sided_guard_for_risk,
)
from measurements.metrology.uncertainty.risk import risks
from measurements.metrology.verdicts import Verdict, judge
from tests.published import uncertainty as printed
from tests.published.limit_tables import GUARD_BANDS

END_GAUGE = [Component(*row) for row in printed.END_GAUGE]


@pytest.mark.parametrize(
    ("component", "divisor"),
    [
        (rectangular("x", 1), math.sqrt(3)),  # JCGM 100, 4.3.7
        (triangular("x", 1), math.sqrt(6)),  # JCGM 100, 4.3.9
        (arcsine("x", 1), math.sqrt(2)),  # JCGM 100, H.1.3.4
        (resolution("x", 1), math.sqrt(12)),  # JCGM 100, F.2.2.1
        (from_certificate("x", 1, 2), 2),  # JCGM 100, 4.3.3
    ],
)
def test_the_divisors_of_the_gum(component, divisor):
    assert component.standard == pytest.approx(1 / divisor, rel=1e-12)


def test_repeatability_has_one_degree_less_than_readings():
    """Shigley, table 8-14: ten preloads in kN, standard deviation 2.88128 (n - 1)."""
    component = repeatability("preload", [30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5])
    assert (component.standard, component.degrees) == (pytest.approx(2.88128, abs=5e-6), 9)


@pytest.mark.parametrize(("k", "probability"), GUARD_BANDS)
def test_a_guard_for_a_risk_is_the_known_multiple_of_u(k, probability):
    """One-sided guard of k u: JCGM 106, least probability of conformity."""
    assert guard_for_risk(1.0, 1 - probability) == pytest.approx(float(k), abs=1e-4)


def test_both_limits_ask_for_a_little_more():
    assert two_sided_guard_for_risk(0, 100, 1.0, 0.025) == pytest.approx(guard_for_risk(1.0, 0.025), rel=1e-6)
    assert two_sided_guard_for_risk(0, 4, 1.0, 0.05) > guard_for_risk(1.0, 0.05)
    with pytest.raises(NoAnswer, match="middle"):
        two_sided_guard_for_risk(0, 1, 1.0, 0.01)


def test_acceptance_shrinks_by_the_guard_on_each_given_side():
    """ISO 14253-1 with guard U, from memory."""
    low, high = Decimal("2.000"), Decimal("2.010")
    guarded = guarded_acceptance(low, high, guard_from_share(Decimal("0.001"), 1))
    assert guarded.holds(Decimal("2.001"))
    assert not guarded.holds(Decimal("2.0009"))
    assert simple_acceptance(low, high).holds(low)
    assert guarded_acceptance(None, high, Decimal("0.001")).low is None
    with pytest.raises(NoAnswer, match="no room"):
        guarded_acceptance(low, high, Decimal("0.006"))


def test_a_guard_trades_false_accepts_for_false_rejects():
    plain, guarded = risks(0, 4, 1, -8, 8), risks(0, 4, 1, -8, 8, guard=1)
    assert guarded.false_accept < plain.false_accept
    assert guarded.false_reject > plain.false_reject


figures = st.decimals(-5, 15, places=2)


@given(figures, st.decimals(0, 4, places=2))
def test_a_gauge_that_can_decide_gives_a_decided_verdict_and_no_other_does(value, u):
    """The choice of a gauge and the judge agree on every reading: limits 0 to 10, guard band U."""
    row = LimitRow(
        row="r", part="p", characteristic="c", unit="mm", service_min=Decimal(0), service_max=Decimal(10), rule="guard"
    )
    least = int(value * 100)
    decided = judge(least, least, criterion(row, 100), int(u * 100) ** 2).verdict in (Verdict.SERVICEABLE, Verdict.OUTSIDE)
    if u:
        assert can_decide(Gauge("g", u), value, 0, 10) is decided


def test_the_least_demanding_gauge_comes_first():
    shelf = [Gauge("fine", Decimal("0.0001")), Gauge("coarse", Decimal("0.002")), Gauge("short", Decimal("0.0001"), 0, 1)]
    found = deciding_gauges(shelf, Decimal("2.005"), Decimal("2.000"), Decimal("2.010"))
    assert [gauge.name for gauge in found] == ["coarse", "fine"]


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: combined([]), NothingGiven),
        (lambda: repeatability("x", [1.0]), NothingGiven),
        (lambda: rectangular("x", -1), BadFigure),
        (lambda: rectangular("x", float("nan")), BadFigure),
        (lambda: from_certificate("x", 1, 0), BadFigure),
        (lambda: effective_degrees([Component("x", 1, degrees=0)]), BadFigure),
        (lambda: expanded(END_GAUGE, 1.0), BadFigure),
        (lambda: guard_for_risk(1, 0.6), BadFigure),
        (lambda: guard_for_risk(0, 0.1), BadFigure),
        (lambda: guarded_acceptance(2, 1, 0), BadLimits),
        (lambda: risks(0, 1, 1, 1, -1), BadLimits),
        (lambda: simple_acceptance(0, 1).holds(Decimal("NaN")), BadFigure),
        (lambda: simple_acceptance(0, 1).holds(0.1), BadFigure),
        (lambda: risks(0, float("inf"), 1, -1, 1), BadFigure),
        (lambda: can_decide(Gauge("g", 0.1), 1, 0, 2), BadFigure),
    ],
)
def test_nonsense_is_refused_by_name(ask, error):
    with pytest.raises(error):
        ask()
