"""Readings at the bench: what is kept, and what the gauge of the day may decide."""

from datetime import date, timedelta

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from measurements.gauges.queries import gauges
from measurements.gauges.services import book_calibration, retire_gauge
from measurements.readings.models import Reading
from shopfloor.ledger.kinds import sentence_of
from shopfloor.ledger.models import LedgerEvent
from tests.making_gauges import CALIBRATION, calibrate, calibrated, make_gauge
from tests.making_people import AT
from tests.making_readings import ledger_faults, make_reading, make_row

pytestmark = pytest.mark.django_db
MINUTE = timedelta(minutes=1)
CROSS = {"planes": ["front", "rear"], "directions": ["0", "90"]}


def test_a_reading_keeps_what_its_verdict_rests_on(mechanic, gauge):
    row = make_row(mechanic, **CROSS)
    taken = make_reading(row, mechanic, "2.4990", "2.4991", "2.4986", "2.4990", gauge=gauge, taken_at=AT - MINUTE)
    reading = Reading.objects.get(pk=taken.pk)

    assert reading.points == [
        ["front", "0", "2.4990"],
        ["front", "90", "2.4991"],
        ["rear", "0", "2.4986"],
        ["rear", "90", "2.4990"],
    ]
    assert (reading.minimum, reading.maximum, reading.mean) == ("2.4986", "2.4991", "2.498925")
    assert (reading.verdict, reading.reason, reading.evaluator_version) == ("within new limits", "", "1")
    assert (reading.gauge, reading.calibration) == (gauge, gauge.calibrations.get())
    assert reading.expanded_u == "0.0001332"  # the root of 0.00012² + 0.0001²/3, rounded up: JCGM 100, F.2.2.1
    assert (reading.taken_by, reading.taken_at, reading.received_at) == (mechanic, AT - MINUTE, AT)
    event = LedgerEvent.objects.get(kind="reading.taken")
    assert (event.chain, event.by, event.body["content"]["points"]) == ("measurements", mechanic.pk, reading.points)
    assert sentence_of(event) == "2.4986 to 2.4991 in was read on camshaft bushing, inside diameter: within new limits."
    assert ledger_faults() == []


BARRED = {
    "never calibrated": (lambda by: make_gauge(by, number="new"), "2.4990", "the gauge had no calibration"),
    "expired": (
        lambda by: calibrated(make_gauge(by, number="late"), by, done_on=date(2025, 1, 1), due_on=date(2026, 3, 1)),
        "2.4990",
        "the calibration of the gauge expired on 2026-03-01",
    ),
    "retired": (
        lambda by: retire_gauge(gauge=calibrated(make_gauge(by, number="old"), by), reason="dropped", by=by, at=AT),
        "2.4990",
        "the gauge was retired on 2026-03-02",
    ),
    "below its range": (
        lambda by: calibrated(make_gauge(by, number="large", range_min="2.5"), by),
        "2.4990",
        "the value lies beyond the gauge's range of 2.5 to 3 in",
    ),
    "above its range, far outside the limits": (
        lambda by: calibrated(make_gauge(by, number="small"), by),
        "3.0001",
        "the value lies beyond the gauge's range of 2 to 3 in",
    ),
}


@pytest.mark.parametrize("case", BARRED)
@pytest.mark.parametrize("rule", ["", "simple", "guard"])
def test_a_gauge_that_may_not_decide_leaves_the_reading_not_judged(mechanic, case, rule):
    make, value, reason = BARRED[case]
    reading = make_reading(make_row(mechanic, rule=rule), mechanic, value, gauge=make(mechanic))
    assert (reading.verdict, reading.reason) == ("not judged", reason)
    assert (reading.minimum, reading.expanded_u, reading.conformity) == (value, "", "")


@pytest.mark.parametrize(
    ("rule", "verdict"), [("", "within new limits"), ("simple", "within new limits"), ("guard", "not judged")]
)
def test_without_a_gauge_only_the_guard_rule_is_left_undecided(mechanic, rule, verdict):
    reading = make_reading(make_row(mechanic, rule=rule), mechanic, "2.4990")
    assert (reading.verdict, reading.calibration, reading.expanded_u) == (verdict, None, "")
    assert reading.reason == ("" if rule == "simple" else "uncertainty not stated")


def test_the_calibration_of_the_day_counts_not_a_later_or_a_corrected_one(mechanic, gauge):
    wrong = gauge.calibrations.get()
    right = book_calibration(
        gauge=gauge, **CALIBRATION | {"expanded_u": "0.0002"}, corrects=wrong, correction_reason="misread", by=mechanic, at=AT
    )
    calibrate(gauge, mechanic, done_on=date(2026, 3, 2), expanded_u="0.0004")
    reading = make_reading(make_row(mechanic), mechanic, gauge=gauge, taken_at=AT - timedelta(days=1))
    assert reading.calibration == right


def test_a_millimetre_gauge_decides_an_inch_row_exactly(mechanic):
    metric = calibrated(
        make_gauge(mechanic, number="mm", unit="mm", range_min="50", range_max="75", resolution="0.001"),
        mechanic,
        expanded_u="0.002",
    )
    reading = make_reading(make_row(mechanic), mechanic, "63.472", unit="mm", gauge=metric)
    assert (reading.verdict, reading.unit, reading.expanded_u) == ("within new limits", "mm", "0.002082")
    assert reading.minimum.startswith("2.49889763779527")  # 63.472 / 25.4


def test_a_warm_part_keeps_its_figures_as_typed(mechanic, gauge):
    """ISO 1: 2.5020 in at 30 °C against a gauge that does not grow is 2.5020 · (1 - 0.0000115 · 10) = 2.50171227 in."""
    warm = {"temperature": "30", "part_coefficient": "0.0000115", "gauge_coefficient": "0"}
    reading = make_reading(make_row(mechanic), mechanic, "2.5020", gauge=gauge, **warm)
    assert reading.points == [["", "", "2.5020"]]
    assert reading.minimum == "2.50171227"
    assert reading.verdict == "serviceable"


@pytest.mark.parametrize(
    "act", [lambda readings: readings.update(verdict="serviceable"), lambda readings: readings._raw_delete("default")]
)
def test_the_database_refuses_to_alter_a_reading(mechanic, act):
    make_reading(make_row(mechanic), mechanic)
    with pytest.raises((IntegrityError, DatabaseError), match=r"append-only|permission denied"), transaction.atomic():
        act(Reading.objects.all())
    assert Reading.objects.get().verdict == "within new limits"


def test_the_ledger_notices_a_reading_that_its_owner_altered(mechanic, as_owner):
    make_reading(make_row(mechanic), mechanic, "2.5030")
    assert ledger_faults() == []
    with as_owner():
        Reading.objects.update(verdict="serviceable")
    assert any("readings.reading" in fault for fault in ledger_faults())


@pytest.mark.parametrize("points", [1, 12])
def test_keeping_a_reading_takes_as_many_queries_whatever_its_size(mechanic, gauge, points, django_assert_num_queries):
    row = make_row(mechanic, planes=[str(plane) for plane in range(points)])
    make_reading(row, mechanic, *["2.4990"] * points)
    fetched = gauges().get()
    own, ledger = 1, {"postgresql": 1, "sqlite": 3}[connection.vendor]
    savepoint = 2  # the transaction of the test
    with django_assert_num_queries(savepoint + own + ledger):
        make_reading(row, mechanic, *["2.4990"] * points, gauge=fetched)
    with django_assert_num_queries(savepoint + own + ledger + 1):
        make_reading(row, mechanic, *["2.4990"] * points, gauge=gauge)
