"""May a gauge decide: by its calibrations, its retirement and its range. Rules: design, sections 4 and 5 (common practice)."""

from datetime import date
from fractions import Fraction

import pytest

from measurements.gauges.standing import Calibrated, Facts, reach, standing_on
from measurements.metrology.errors import OtherDimension

LAST_YEAR = Calibrated(date(2025, 1, 10), date(2026, 1, 10), "0.0001")
THIS_YEAR = Calibrated(date(2026, 1, 5), date(2027, 1, 5), "0.0002")


def facts(*calibrations, retired_on=None):
    return Facts("in", "2", "3", retired_on, calibrations)


@pytest.mark.parametrize(
    ("day", "counts"),
    [
        (date(2025, 1, 10), LAST_YEAR),
        (date(2025, 12, 31), LAST_YEAR),
        (date(2026, 1, 4), LAST_YEAR),
        (date(2026, 1, 5), THIS_YEAR),
        (date(2026, 1, 10), THIS_YEAR),
        (date(2027, 1, 5), THIS_YEAR),
    ],
)
@pytest.mark.parametrize("order", [(LAST_YEAR, THIS_YEAR), (THIS_YEAR, LAST_YEAR)])
def test_the_latest_calibration_by_that_day_counts(day, counts, order):
    assert standing_on(facts(*order), day).calibration == counts


@pytest.mark.parametrize(
    ("found", "day", "reason"),
    [
        (facts(), date(2026, 1, 1), "had no calibration"),
        (facts(THIS_YEAR), date(2026, 1, 4), "had no calibration"),
        (facts(LAST_YEAR), date(2026, 1, 11), "expired on 2026-01-10"),
        (facts(LAST_YEAR, THIS_YEAR), date(2027, 1, 6), "expired on 2027-01-05"),
        (facts(THIS_YEAR, retired_on=date(2026, 3, 1)), date(2026, 3, 1), "retired on 2026-03-01"),
    ],
)
def test_otherwise_the_reason_is_named(found, day, reason):
    standing = standing_on(found, day)
    assert standing.calibration is None
    assert reason in standing.reason


def test_a_reading_before_the_retirement_keeps_its_gauge():
    assert standing_on(facts(THIS_YEAR, retired_on=date(2026, 3, 1)), date(2026, 2, 28)).calibration == THIS_YEAR


def test_a_calibration_cut_short_by_a_newer_one_does_not_come_back():
    """A newer certificate with an earlier due day is the later knowledge of the gauge."""
    short = Calibrated(date(2026, 2, 1), date(2026, 3, 1), "0.0005")
    assert "expired on 2026-03-01" in standing_on(facts(THIS_YEAR, short), date(2026, 6, 1)).reason


@pytest.mark.parametrize(
    ("value", "unit", "inside"),
    [
        ("2", "in", True),
        ("3", "in", True),
        ("3.0001", "in", False),
        ("1.9999", "in", False),
        ("50.8", "mm", True),  # NIST SP 811: 1 in = 25.4 mm exactly, so 2 in
        ("50.799", "mm", False),
        ("76.2", "mm", True),
        ("76.201", "mm", False),
    ],
)
def test_the_range_is_compared_exactly_in_any_unit(value, unit, inside):
    assert (reach(facts(), Fraction(value), unit) == "") is inside


def test_another_dimension_is_refused():
    with pytest.raises(OtherDimension):
        reach(facts(), Fraction(2), "g")
