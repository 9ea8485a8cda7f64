"""Readings at the bench: what is kept, what the gauge of the day may decide, how one is corrected, what is refused."""

from datetime import date, timedelta

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from measurements.gauges.queries import gauges
from measurements.gauges.services import book_calibration, retire_gauge
from measurements.readings import shown
from measurements.readings.errors import ReadingRefused
from measurements.readings.models import Reading
from measurements.readings.services import drafts, write
from shopfloor.ledger.kinds import sentence_of
from shopfloor.ledger.models import ErasableText, LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.ledger.services import record
from shopfloor.people.models import Role
from tests.making_gauges import CALIBRATION, calibrate, make_gauge
from tests.making_people import AT, make_person
from tests.making_readings import draft_fields, make_reading, make_row, make_rows

pytestmark = pytest.mark.django_db
MINUTE = timedelta(minutes=1)
CROSS = {"planes": ["front", "rear"], "directions": ["0", "90"]}


@pytest.fixture
def mechanic():
    return make_person(Role.MECHANIC)


@pytest.fixture
def gauge(mechanic):
    gauge = make_gauge(mechanic)
    calibrate(gauge, mechanic)
    return gauge


def faults():
    """The person and the grants of these tests are made directly, without the ledger."""
    return [fault.sentence for fault in verify() if "people." not in fault.sentence]


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
    assert faults() == []


def calibrated(gauge, mechanic, **fields):
    calibrate(gauge, mechanic, **fields)
    return gauge


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


def test_a_correction_names_the_reading_and_the_reason_and_both_stay(mechanic, gauge):
    row = make_row(mechanic)
    first = make_reading(row, mechanic, "2.5990", gauge=gauge)
    second = make_reading(row, mechanic, "2.4990", gauge=gauge, corrects=first, correction_reason="wrote a 5 for a 4")
    third = make_reading(row, mechanic, "2.4991", gauge=gauge, corrects=second, correction_reason="read again")

    assert (first.corrected_by, second.corrected_by) == (second, third)
    assert Reading.objects.get(pk=first.pk).verdict == "outside limits"
    assert LedgerEvent.objects.filter(kind="reading.corrected").count() == 2
    assert "wrote" not in bytes(LedgerEvent.objects.filter(kind="reading.corrected").first().body_bytes).decode()
    assert ErasableText.objects.filter(about_id=str(second.pk)).get().text == "wrote a 5 for a 4"
    assert faults() == []
    with pytest.raises(ReadingRefused, match="corrected already") as refused:
        make_reading(row, mechanic, corrects=first, correction_reason="again")
    assert refused.value.status == 409
    assert Reading.objects.count() == 3


REFUSED = {
    "a fraction": ({}, ["2-1/2"], "The value: “2-1/2” is not a number"),
    "ahead of time": ({"taken_at": AT + 6 * MINUTE}, ["2.4990"], "later than now"),
    "a unit of another kind": ({"unit": "lb"}, ["2.4990"], "lb measures mass and in measures length"),
    "no unit": ({"unit": ""}, ["2.4990"], "unit is missing"),
    "a condition of their own": ({"condition": "as new"}, ["2.4990"], "write one of as received, after rework, as assembled"),
    "a reason without a reading": ({"correction_reason": "oops"}, ["2.4990"], "no reading that it corrects"),
    "Fahrenheit": ({"temperature": "140"}, ["2.4990"], "in °C"),
    "a point without its place": ({"points": [["2.4990"]]}, [], "a plane, a direction and a value"),
    "a figure that is no text": ({"points": [["", "", 2.5]]}, [], "all three as text"),
    "a sequence below zero": ({"sequence": -1}, ["2.4990"], "whole number from 0"),
    "a long story of the set-up": ({"set_up": "x" * 201}, ["2.4990"], "Say it shorter"),
    "half a temperature": (
        {"temperature": "30", "part_coefficient": "0.0000115"},
        ["2.4990"],
        "coefficients of the part and the",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_reading_that_cannot_be_is_refused_in_words_and_nothing_is_kept(mechanic, case):
    fields, values, words = REFUSED[case]
    row = make_row(mechanic)
    with pytest.raises(ReadingRefused, match=words):
        make_reading(row, mechanic, *values, **fields)
    assert not Reading.objects.exists()
    assert not LedgerEvent.objects.filter(kind__startswith="reading").exists()


def test_a_clock_a_little_ahead_is_let_pass(mechanic):
    assert make_reading(make_row(mechanic), mechanic, taken_at=AT + 5 * MINUTE).taken_at == AT + 5 * MINUTE


def test_a_gauge_that_measures_something_else_is_refused(mechanic):
    spring = calibrated(make_gauge(mechanic, number="scale", unit="lbf", range_min="0", range_max="50"), mechanic)
    with pytest.raises(ReadingRefused, match="lbf measures force and in measures length"):
        make_reading(make_row(mechanic), mechanic, gauge=spring)


def test_a_correction_needs_its_reason_and_the_same_row(mechanic):
    row, other = make_row(mechanic), make_row(mechanic)
    first = make_reading(row, mechanic)
    with pytest.raises(ReadingRefused, match="Say what was wrong"):
        make_reading(row, mechanic, corrects=first, correction_reason=" ")
    with pytest.raises(ReadingRefused, match="of the same row"):
        make_reading(other, mechanic, corrects=first, correction_reason="wrong row")


def test_the_set_up_that_the_data_ask_for_must_be_confirmed(mechanic):
    row = make_row(mechanic, set_up="case halves bolted at full torque")
    with pytest.raises(ReadingRefused, match="case halves bolted at full torque"):
        make_reading(row, mechanic)
    assert make_reading(row, mechanic, set_up=row.set_up).set_up == row.set_up


def test_a_warm_part_keeps_its_figures_as_typed(mechanic, gauge):
    """ISO 1: 2.5020 in at 30 °C against a gauge that does not grow is 2.5020 · (1 - 0.0000115 · 10) = 2.50171227 in."""
    warm = {"temperature": "30", "part_coefficient": "0.0000115", "gauge_coefficient": "0"}
    reading = make_reading(make_row(mechanic), mechanic, "2.5020", gauge=gauge, **warm)
    assert reading.points == [["", "", "2.5020"]]
    assert reading.minimum == "2.50171227"
    assert reading.verdict == "serviceable"


BORE = {"row": "bore", "new_min": "2.5000", "new_max": "2.5010", **CROSS}
SHAFT = {"row": "shaft", "new_min": "2.4980", "new_max": "2.4990", **CROSS}
FIT = {
    "row": "fit",
    "new_min": "0.0010",
    "new_max": "0.0030",
    "outer_row": "bore",
    "inner_row": "shaft",
    "outer_planes": ["rear"],
}
ROUND = {"row": "round", "new_min": "", "new_max": "0.0005", "from_row": "bore", "quantity": "out-of-round"}
TAPER = {
    "row": "taper",
    "new_min": "-0.0005",
    "new_max": "0",
    "from_row": "bore",
    "quantity": "taper",
    "planes": ["front", "rear"],
}


@pytest.fixture
def rows(mechanic):
    made = make_rows(mechanic, *({"service_max": ""} | each for each in (BORE, SHAFT, FIT, ROUND, TAPER)))
    return {row.row: row for row in made}


BORED, TURNED = ("2.5006", "2.5007", "2.5004", "2.5005"), ("2.4984", "2.4985", "2.4986", "2.4985")


def test_a_reading_with_all_that_follows_from_it_is_one_act(mechanic, gauge, rows):
    bore, shaft = (
        drafts.reading(**draft_fields(rows[name], mechanic, *values, gauge=gauge))
        for name, values in (("bore", BORED), ("shaft", TURNED))
    )
    more = [drafts.derived(row=rows[name], source=bore, by=mechanic, at=AT) for name in ("round", "taper")]
    fit = drafts.fitted(row=rows["fit"], outer=bore, inner=shaft, by=mechanic, at=AT)
    with transaction.atomic():
        record(*write(bore, shaft, *more, fit), by=mechanic.pk, at=AT)

    kept = {reading.row.row: reading for reading in Reading.objects.select_related("row")}
    assert (kept["round"].minimum, kept["round"].expanded_u) == ("0.0001", "0.0001884")  # √2 · 0.00013317
    assert (kept["taper"].minimum, kept["taper"].verdict) == ("-0.0002", "within new limits")
    assert (kept["fit"].minimum, kept["fit"].maximum, kept["fit"].verdict) == ("0.0018", "0.0021", "within new limits")
    assert (kept["fit"].outer, kept["fit"].inner, kept["round"].source) == (bore, shaft, bore)
    events = LedgerEvent.objects.filter(kind__in=["reading.taken", "reading.derived", "fit.judged"]).order_by("id")
    assert [event.kind for event in events] == ["reading.taken"] * 2 + ["reading.derived"] * 2 + ["fit.judged"]
    assert len({event.act for event in events}) == 1
    assert sentence_of(events[4]) == "The fit camshaft bushing, inside diameter is 0.0018 L to 0.0021 L in: within new limits."
    assert faults() == []


def test_a_fit_from_kept_readings_is_that_of_their_drafts(mechanic, gauge, rows):
    for name, values in (("bore", BORED), ("shaft", TURNED)):
        make_reading(rows[name], mechanic, *values, gauge=gauge)
    bore, shaft = Reading.objects.select_related("row", "gauge", "calibration").order_by("row__order")
    fit = drafts.fitted(row=rows["fit"], outer=bore, inner=shaft, by=mechanic, at=AT)
    assert (fit.minimum, fit.expanded_u, fit.verdict) == ("0.0018", "0.0001884", "within new limits")


def test_what_follows_from_a_barred_gauge_is_not_judged_either(mechanic, gauge, rows):
    late = calibrated(make_gauge(mechanic, number="late"), mechanic, done_on=date(2025, 1, 1), due_on=date(2026, 3, 1))
    bore = make_reading(rows["bore"], mechanic, *BORED, gauge=late)
    shaft = make_reading(rows["shaft"], mechanic, *TURNED, gauge=gauge)
    derived = drafts.derived(row=rows["round"], source=bore, by=mechanic, at=AT)
    fit = drafts.fitted(row=rows["fit"], outer=bore, inner=shaft, by=mechanic, at=AT)
    for follows in (derived, fit):
        assert (follows.verdict, follows.reason) == ("not judged", "the calibration of the gauge expired on 2026-03-01")


def test_a_pair_that_is_not_permitted_is_not_judged(mechanic, gauge, rows):
    bore, shaft = (
        make_reading(rows[name], mechanic, *values, gauge=gauge) for name, values in (("bore", BORED), ("shaft", TURNED))
    )
    fit = drafts.fitted(row=rows["fit"], outer=bore, inner=shaft, not_permitted="no such pair", by=mechanic, at=AT)
    assert (fit.verdict, fit.reason) == ("not judged", "no such pair")


def test_only_the_readings_that_a_row_names_may_follow_or_fit(mechanic, rows):
    bore, shaft = make_reading(rows["bore"], mechanic, *BORED), make_reading(rows["shaft"], mechanic, *TURNED)
    with pytest.raises(ReadingRefused, match="take that reading first"):
        drafts.derived(row=rows["round"], source=shaft, by=mechanic, at=AT)
    with pytest.raises(ReadingRefused, match="take a reading of bore first"):
        drafts.fitted(row=rows["fit"], outer=shaft, inner=bore, by=mechanic, at=AT)
    with pytest.raises(ReadingRefused, match="never read"):
        make_reading(rows["fit"], mechanic, "0.0020")


def test_a_limit_that_is_on_the_fit_names_the_fit(mechanic):
    bore, _, _ = make_rows(mechanic, *({"service_max": ""} | each for each in ({**BORE, "worn": "fit"}, SHAFT, FIT)))
    reading = make_reading(bore, mechanic, "2.5012", *BORED[1:])
    assert reading.reason == "limit is on the fit: fit; uncertainty not stated"


def test_a_reading_is_shown_with_its_strip(mechanic, gauge, rows):
    bore, shaft = make_reading(rows["bore"], mechanic, *BORED, gauge=gauge), make_reading(rows["shaft"], mechanic, *TURNED)
    fit = drafts.fitted(row=rows["fit"], outer=bore, inner=shaft, by=mechanic, at=AT)
    page = shown.figures(bore)
    assert (page.read, page.expanded_u) == ("2.5004 to 2.5007 in", "0.0001332 in")
    assert page.typed == "2.5006 2.5007 2.5004 2.5005 in"
    assert page.strip.whisker.width > page.strip.bar.width
    assert shown.figures(fit).read == "0.0018 L to 0.0021 L in"
    assert shown.figures(fit).strip.whisker is None


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
    assert faults() == []
    with as_owner():
        Reading.objects.update(verdict="serviceable")
    assert any("readings.reading" in fault for fault in faults())


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
