"""Gauge studies and charts: what must hold for any. Published ones: tests/published/gauge_studies.py."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import f_oneway, linregress

from measurements.metrology.charts import capability as capable
from measurements.metrology.charts.constants import control_constants, mean_range_divisor
from measurements.metrology.charts.subgroups import averages_and_ranges, individuals, moving_ranges
from measurements.metrology.errors import BadFigure, BadLimits, MixedDimensions, NoAnswer, NothingGiven
from measurements.metrology.gauge_study.average_range import by_average_and_range
from measurements.metrology.gauge_study.bias import bias, bias_interval
from measurements.metrology.gauge_study.linearity import linearity
from measurements.metrology.gauge_study.result import (
    StudyResult,
    categories,
    distinct_categories,
    percent_of_tolerance,
    percent_of_total,
)
from measurements.metrology.gauge_study.study import study, study_from_rows
from measurements.metrology.gauge_study.variance import by_variance, crossed, one_way
from measurements.metrology.regression import height_interval, line, prediction_interval
from tests.published import gauge_studies as printed

readings = st.integers(-50, 50)
studies = st.tuples(st.integers(2, 3), st.integers(2, 4), st.integers(2, 3)).flatmap(
    lambda shape: st.lists(
        st.lists(st.lists(readings, min_size=shape[2], max_size=shape[2]), min_size=shape[1], max_size=shape[1]),
        min_size=shape[0],
        max_size=shape[0],
    )
)


@settings(max_examples=60, deadline=None)
@given(studies)
def test_the_sums_of_squares_add_up_exactly(values):
    table = crossed(study(values))
    lines = (table.appraiser, table.part, table.interaction, table.equipment)
    assert sum(line.squares for line in lines) == table.total.squares
    assert sum(line.degrees for line in lines) == table.total.degrees
    assert all(line.squares >= 0 for line in lines)


def test_a_biased_appraiser_is_reproducibility_and_nothing_else():
    quiet = [[[10 * part + trial for trial in (0, 1)] for part in range(4)] for _ in range(2)]
    biased = [quiet[0], [[value + 5 for value in cell] for cell in quiet[1]]]
    before, after = by_variance(study(quiet)), by_variance(study(biased))
    assert (before.reproducibility, before.interaction) == (0, 0)
    assert after.reproducibility > 3
    assert after.repeatability == before.repeatability
    assert by_average_and_range(study(biased)).reproducibility > 3


def test_an_interaction_that_is_real_is_kept_apart():
    """One appraiser reads part after part the other way about: nothing to pool."""
    values = [[[part, part + Fraction(1, 10)] for part in range(5)], [[-part, Fraction(1, 10) - part] for part in range(5)]]
    found = by_variance(study(values))
    assert found.interaction > 1
    pooled = by_variance(study(values), pool_above=0)
    assert (pooled.interaction, pooled.repeatability > 1) == (0, True)


def test_rows_may_come_in_any_order_of_parts():
    rows = [("a", 1, 5), ("a", 2, 7), ("b", 2, 7), ("b", 1, 6), ("a", 1, 4), ("a", 2, 8), ("b", 1, 5), ("b", 2, 9)]
    assert study_from_rows(rows) == study([[[5, 4], [7, 8]], [[6, 5], [7, 9]]])
    with pytest.raises(MixedDimensions, match="missing"):
        study_from_rows(rows[:-1])


def test_percentages_of_a_study():
    result = StudyResult(repeatability=3, reproducibility=4, interaction=0, part=12)
    assert (result.gauge, result.total) == (5, 13)
    assert percent_of_total(result, result.gauge) == pytest.approx(500 / 13)
    assert percent_of_tolerance(result, 60) == pytest.approx(50)
    assert distinct_categories(result) == 3
    assert distinct_categories(StudyResult(10, 0, 0, 1)) == 1


def test_several_gauges_compared_as_scipy_does():
    groups = [[1, 2, 4], [2, 3, 3], [5, 6, 9]]
    theirs = f_oneway(*groups)
    ours = one_way(groups)
    assert (float(ours.f), ours.probability) == pytest.approx((theirs.statistic, theirs.pvalue), rel=1e-12)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.tuples(st.integers(-99, 99), st.integers(-99, 99)), min_size=3, max_size=12))
def test_a_line_as_scipy_draws_it(points):
    x, y = zip(*points, strict=True)
    if len(set(x)) == 1:
        with pytest.raises(NoAnswer, match="same x"):
            line(x, y)
        return
    theirs, ours = linregress(x, y), line(x, y)
    if len(set(y)) == 1:
        assert (ours.slope, ours.slope_error, ours.r_squared) == (0, 0, 1)
        return
    assert (float(ours.slope), float(ours.intercept)) == pytest.approx((theirs.slope, theirs.intercept), rel=1e-9, abs=1e-9)
    assert ours.slope_error == pytest.approx(theirs.stderr, rel=1e-6, abs=1e-6)
    narrow, wide = height_interval(ours, 3), prediction_interval(ours, 3)
    assert wide.low <= narrow.low <= narrow.value <= narrow.high <= wide.high


def test_bias_of_a_gauge_is_seen_when_its_interval_leaves_out_zero():
    without = bias(printed.decimals(printed.BIAS_READINGS), 6)
    assert bias_interval(without).low < 0 < bias_interval(without).high
    assert without.probability > 0.9
    shifted = bias(printed.decimals(printed.BIAS_READINGS), Decimal("5.5"))
    assert bias_interval(shifted).low > 0
    assert shifted.probability < 0.001
    assert bias_interval(shifted, 0.99).low < bias_interval(shifted).low


def test_the_slope_of_the_published_linearity_is_real():
    assert printed.linear().probability_of_slope < 1e-9


def test_divisors_of_few_ranges_lie_above_d2_and_come_down_to_it():
    """AIAG MSA: K2 and K3 (from memory), and d2* of one range of 15, which the page works out in fewer digits (read)."""
    assert 1 / mean_range_divisor(3, 1) == pytest.approx(0.5231, abs=5e-5)
    assert 1 / mean_range_divisor(10, 1) == pytest.approx(0.3146, abs=5e-5)
    assert mean_range_divisor(15, 1) == pytest.approx(3.55333, rel=5e-5)
    assert control_constants(3).d2 < mean_range_divisor(3, 50) < mean_range_divisor(3, 2)


def test_the_spread_of_a_pair_is_known_in_closed_form():
    """The range of two normal values is a folded normal: mean 2/sqrt(pi), variance 2 - 4/pi."""
    found = control_constants(2)
    assert found.d2 == pytest.approx(1.1283791670955126, rel=1e-13)
    assert found.d3**2 == pytest.approx(0.7267604552648372, rel=1e-12)


def test_moving_ranges_and_the_limits_of_individuals():
    assert moving_ranges([1, 4, 2]) == (3, 2)
    chart = individuals([1, 4, 2])
    assert chart.location.upper - chart.location.centre == pytest.approx(2.5 * 2.6587, abs=2e-4)
    assert chart.spread.lower == 0


def test_one_limit_has_no_width():
    found = capable.capability(10, 1, 20, None, 14)
    assert (found.width, found.lower, found.nearest) == (None, None, pytest.approx(4 / 3))
    with pytest.raises(NoAnswer, match="one limit"):
        capable.width_interval(found)
    assert capable.nearest_interval(found, 21).low < found.nearest < capable.nearest_interval(found, 21).high


def test_short_term_and_overall_part_when_the_process_wanders():
    wandering = [[step, step + 1, step + 2] for step in (0, 10, 20)]
    short = capable.short_term(wandering, -10, 40)
    long = capable.overall([value for group in wandering for value in group], -10, 40)
    assert short.nearest > 2 * long.nearest
    assert 5 < short.degrees < 6.1  # three ranges of three: fewer than the six of their variances
    assert long.degrees == 8


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: study([]), NothingGiven),
        (lambda: study([[[1, 2], [1, 2]]]), NothingGiven),
        (lambda: study([[[1, 2], [1, 2]], [[1, 2], [1]]]), MixedDimensions),
        (lambda: one_way([[1, 2]]), NothingGiven),
        (lambda: one_way([[1], [2]]), NothingGiven),
        (lambda: one_way([[1, 1], [2, 2]]), NoAnswer),
        (lambda: by_variance(study([[[1, 1], [2, 2]], [[1, 1], [2, 2]]])), NoAnswer),
        (lambda: by_variance(study([[[1, 2], [2, 2]], [[1, 1], [2, 2]]]), pool_above=2), BadFigure),
        (lambda: categories(StudyResult(0, 0, 0, 1)), NoAnswer),
        (lambda: percent_of_total(StudyResult(0, 0, 0, 0), 0), NoAnswer),
        (lambda: bias([6], 6), NothingGiven),
        (lambda: bias([6, 6], 6), NoAnswer),
        (lambda: bias([6, 7], 6, 1), NothingGiven),
        (lambda: bias_interval(bias([6, 7], 6), 1), BadFigure),
        (lambda: linearity({}), NothingGiven),
        (lambda: linearity({1: [1, 2, 3]}), NoAnswer),
        (lambda: linearity({1: [1, 1], 2: [2, 2]}), NoAnswer),
        (lambda: control_constants(1), BadFigure),
        (lambda: control_constants(True), BadFigure),
        (lambda: mean_range_divisor(3, 0), BadFigure),
        (lambda: averages_and_ranges([[1, 2]]), NothingGiven),
        (lambda: averages_and_ranges([[1, 2], [1, 2, 3]]), MixedDimensions),
        (lambda: individuals([1, 2]), NothingGiven),
        (lambda: capable.capability(1, 1, 1, None, None), NothingGiven),
        (lambda: capable.capability(1, 1, 1, 2, 1), BadLimits),
        (lambda: capable.capability(1, 0, 1, 1, 2), BadFigure),
        (lambda: line([1, 2, 3], [1, 2]), MixedDimensions),
    ],
)
def test_a_study_that_says_nothing_is_refused(ask, error):
    with pytest.raises(error):
        ask()
