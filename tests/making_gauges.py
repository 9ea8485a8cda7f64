"""A gauge with one calibration, by way of the services. Invented."""

from datetime import date, timedelta

from measurements.gauges.models import Calibration, Gauge
from measurements.gauges.services import add_gauge, book_calibration
from shopfloor.people.models import Person
from tests.making_people import AT

GAUGE = {
    "number": "G-14",
    "description": "outside micrometer",
    "unit": "in",
    "range_min": "2",
    "range_max": "3",
    "resolution": "0.0001",
}
CALIBRATION = {
    "done_on": date(2026, 1, 10),
    "due_on": date(2027, 1, 10),
    "expanded_u": "0.00012",
    "certificate_number": "C-2026-01",
    "laboratory": "a laboratory",
}


def make_gauge(by: Person, **fields: str) -> Gauge:
    return add_gauge(**GAUGE | fields, by=by, at=AT)


def calibrate(gauge: Gauge, by: Person, **fields: object) -> Calibration:
    return book_calibration(gauge=gauge, **CALIBRATION | fields, by=by, at=AT)


def calibrated(gauge: Gauge, by: Person, **fields: object) -> Gauge:
    calibrate(gauge, by, **fields)
    return gauge


def make_tester(by: Person, number: str, unit: str = "psi", **fields: object) -> Gauge:
    """One without much of a scale, in calibration for as long as these tests are run."""
    what = {"number": number, "description": "tester", "unit": unit, "range_min": "0", "range_max": "100", "resolution": "1"}
    good = {"due_on": AT.date() + timedelta(days=4000), "expanded_u": "1"} | fields
    return calibrated(make_gauge(by, **what), by, **good)
