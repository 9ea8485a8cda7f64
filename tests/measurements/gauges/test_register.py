"""The register: what is kept, corrected, retired and refused; who may; what the ledger holds."""

from datetime import date, timedelta
from uuid import uuid4

import pytest
from django.db import DatabaseError, transaction
from django.urls import reverse

from measurements.gauges import queries
from measurements.gauges.errors import CorrectedAlready, FigureRefused, NumberTaken, Retired
from measurements.gauges.models import Calibration, Gauge
from measurements.gauges.services import retire_gauge
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_gauges import CALIBRATION, GAUGE, calibrate, make_gauge
from tests.making_people import AT, make_person

pytestmark = pytest.mark.django_db
DAY = date(2026, 3, 2)


@pytest.fixture
def keeper():
    return make_person(Role.STOREKEEPER)


@pytest.fixture
def gauge(keeper):
    return make_gauge(keeper)


@pytest.fixture
def signed_in(client, keeper):
    client.force_login(keeper)
    return client


def standing(gauge, day=DAY):
    (listed,) = queries.listed(queries.gauges().filter(pk=gauge.pk), day)
    return listed.standing


def key():
    return {"receipt_key": str(uuid4())}


def test_a_new_gauge_decides_nothing_until_it_is_calibrated(gauge, keeper):
    assert standing(gauge).reason == "the gauge had no calibration"
    calibrate(gauge, keeper)
    assert standing(gauge).calibration.expanded_u == "0.00012"


def test_a_correction_takes_the_place_of_the_wrong_one_and_both_stay(gauge, keeper):
    wrong = calibrate(gauge, keeper)
    calibrate(gauge, keeper, expanded_u="0.0012", corrects=wrong, correction_reason="a digit was left out")
    assert standing(gauge).calibration.expanded_u == "0.0012"
    assert [each.expanded_u for each in queries.history(gauge)] == ["0.0012", "0.00012"]
    with pytest.raises(CorrectedAlready):
        calibrate(gauge, keeper, corrects=wrong, correction_reason="again")


def test_a_correction_says_why_and_stays_with_its_gauge(gauge, keeper):
    wrong = calibrate(gauge, keeper)
    other = make_gauge(keeper, number="G-15")
    for target, reason in ((gauge, ""), (other, "wrong gauge")):
        with pytest.raises(FigureRefused, match="names a calibration of the same gauge"):
            calibrate(target, keeper, corrects=wrong, correction_reason=reason)


def test_a_retired_gauge_is_left_alone(gauge, keeper):
    calibrate(gauge, keeper)
    retire_gauge(gauge=gauge, reason="dropped", by=keeper, at=AT)
    assert "retired on 2026-03-02" in standing(gauge).reason
    assert standing(gauge, DAY - timedelta(days=1)).calibration
    with pytest.raises(Retired):
        retire_gauge(gauge=gauge, reason="again", by=keeper, at=AT)
    with pytest.raises(Retired):
        calibrate(gauge, keeper)


def test_two_gauges_never_share_a_number(gauge, keeper):
    with pytest.raises(NumberTaken, match="G-14"):
        make_gauge(keeper)
    assert Gauge.objects.count() == 1


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"unit": "furlong"}, "not known"),
        ({"range_min": "3", "range_max": "2"}, "must be above"),
        ({"range_min": "2", "range_max": "2"}, "must be above"),
        ({"range_max": "NaN"}, "Greatest reading: .*plain decimals"),
        ({"range_min": "1-1/8"}, "Least reading: .*plain decimals"),
        ({"resolution": "0"}, "Resolution"),
        ({"resolution": "-0.1"}, "Resolution"),
    ],
)
def test_a_gauge_that_cannot_be_is_refused(keeper, fields, sentence):
    with pytest.raises(FigureRefused, match=sentence):
        make_gauge(keeper, **fields)
    assert not Gauge.objects.exists()
    assert not LedgerEvent.objects.exists()


@pytest.mark.parametrize(
    ("fields", "sentence"),
    [
        ({"expanded_u": "0"}, "above zero"),
        ({"expanded_u": "-0.0001"}, "above zero"),
        ({"expanded_u": "1e-4"}, "plain decimals"),
        ({"due_on": date(2026, 1, 10)}, "cannot be due on"),
        ({"done_on": date(2026, 3, 3)}, "ahead of today"),
    ],
)
def test_a_calibration_that_cannot_be_is_refused(gauge, keeper, fields, sentence):
    with pytest.raises(FigureRefused, match=sentence):
        calibrate(gauge, keeper, **fields)
    assert not Calibration.objects.exists()


def test_the_database_refuses_to_alter_a_calibration(gauge, keeper):
    calibrate(gauge, keeper)
    with pytest.raises(DatabaseError, match=r"append-only|permission denied"), transaction.atomic():
        Calibration.objects.update(expanded_u="0.00001")


def test_the_ledger_agrees_with_the_register(gauge, keeper):
    wrong = calibrate(gauge, keeper)
    calibrate(gauge, keeper, corrects=wrong, correction_reason="a digit")
    retire_gauge(gauge=gauge, reason="dropped", by=keeper, at=AT)
    kinds = ["gauge.added", "calibration.booked", "calibration.corrected", "gauge.retired"]
    assert list(LedgerEvent.objects.filter(chain="measurements").order_by("sequence").values_list("kind", flat=True)) == kinds
    assert [fault for fault in verify() if "people." not in fault.sentence] == []


def test_a_gauge_is_added_and_calibrated_on_the_pages(signed_in):
    page = signed_in.post(reverse("gauges:add"), GAUGE | key(), follow=True)
    assert "decides nothing" in page.content.decode()
    address = page.redirect_chain[-1][0]
    page = signed_in.post(f"{address}calibrate/", CALIBRATION | key() | {"due_on": "2999-01-01"}, follow=True)
    assert "in calibration" in page.content.decode()
    page = signed_in.post(f"{address}retire/", key() | {"reason": "dropped"}, follow=True)
    assert "the gauge was retired on" in page.content.decode()


@pytest.mark.parametrize(
    ("change", "status", "sentence"),
    [
        ({"unit": "furlong"}, 422, "Select a valid choice"),
        ({"range_max": "1-1/8"}, 422, "plain decimals"),
        ({"number": ""}, 422, "This field is required"),
        ({"number": "G-99"}, 409, "another gauge already"),
    ],
)
def test_what_cannot_be_added_is_said_on_the_form(signed_in, keeper, change, status, sentence):
    make_gauge(keeper, number="G-99")
    page = signed_in.post(reverse("gauges:add"), GAUGE | change | key())
    assert page.status_code == status
    assert sentence in page.content.decode()
    assert Gauge.objects.count() == 1


def test_a_longer_register_takes_no_more_queries(signed_in, keeper, django_assert_num_queries):
    for number in range(30):
        gauge = make_gauge(keeper, number=f"G-{number}")
        for year in (2024, 2025, 2026):
            calibrate(gauge, keeper, done_on=date(year, 1, 1), due_on=date(year + 1, 1, 1))
    with django_assert_num_queries(6):  # session, person, roles, how many, gauges, calibrations
        signed_in.get(reverse("gauges:gauges"))
