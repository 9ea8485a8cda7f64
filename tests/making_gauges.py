"""A gauge with one calibration, by way of the services. Invented."""

from datetime import date

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
