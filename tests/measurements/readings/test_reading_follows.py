"""What follows from kept readings: derived values and fits, in one act with them."""

from datetime import date

import pytest
from django.db import transaction

from measurements.readings import shown
from measurements.readings.errors import ReadingRefused
from measurements.readings.models import Reading
from measurements.readings.services import drafts, write
from shopfloor.ledger.kinds import sentence_of
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.services import record
from tests.making_gauges import calibrated, make_gauge
from tests.making_people import AT
from tests.making_readings import draft_fields, ledger_faults, make_reading, make_rows

pytestmark = pytest.mark.django_db

CROSS = {"planes": ["front", "rear"], "directions": ["0", "90"]}


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
    assert ledger_faults() == []


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
    assert (page.read, page.expanded_u) == ("2.5004 to 2.5007 in", "0.00014 in")  # two digits, rounded up: JCGM 100, 7.2.6
    assert page.typed == "2.5006 2.5007 2.5004 2.5005 in"
    assert page.strip.whisker.width > page.strip.bar.width
    assert shown.figures(fit).read == "0.0018 L to 0.0021 L in"
    assert shown.figures(fit).strip.whisker is None
