"""The shop's gauges: most in calibration, one overdue, one dropped and retired, one never calibrated. All invented."""

from datetime import date, datetime, timedelta
from typing import NamedTuple

from django.db import transaction
from django.utils import timezone

from engines.scenario.saying import Say
from measurements.gauges.models import Gauge
from measurements.gauges.services import add_gauge, book_calibration, retire_gauge
from shopfloor.people.models import Person

DAYS_IN_A_YEAR = 365


class Invented(NamedTuple):
    number: str
    description: str
    unit: str
    range_min: str
    range_max: str
    resolution: str
    expanded_u: str
    calibrated_days_ago: int | None
    retired: str = ""


GAUGES = [
    Invented("SW-01", "outside micrometer", "in", "0", "1", "0.0001", "0.00008", 80),
    Invented("SW-02", "outside micrometer", "in", "1", "2", "0.0001", "0.0001", 80),
    Invented("SW-03", "outside micrometer", "in", "2", "3", "0.0001", "0.00012", 380),
    Invented("SW-04", "bore gauge", "in", "4.5", "6", "0.0001", "0.0003", 200),
    Invented("SW-05", "bore gauge", "mm", "25", "50", "0.002", "0.004", 120),
    Invented("SW-06", "dial indicator", "in", "0", "0.5", "0.0005", "0.0006", None),
    Invented("SW-07", "spring tester", "lbf", "5", "150", "0.5", "0.8", 90),
    Invented("SW-08", "balance", "g", "0", "3000", "0.5", "0.6", 60),
    Invented("SW-10", "outside micrometer", "in", "2", "3", "0.0001", "0.0001", 60),
    Invented("SW-11", "outside micrometer", "in", "3", "6", "0.0001", "0.00015", 60),
    Invented("SW-12", "bore gauge", "in", "0.25", "2", "0.0001", "0.00012", 75),
    Invented("SW-13", "bore gauge", "in", "2", "4.5", "0.0001", "0.00015", 75),
    Invented("SW-14", "dial indicator", "in", "0", "0.5", "0.0001", "0.0002", 45),
    Invented("SW-15", "outside micrometer", "mm", "0", "25", "0.001", "0.002", 60),
    Invented("SW-16", "outside micrometer", "mm", "25", "125", "0.001", "0.003", 60),
    Invented("SW-17", "bore gauge", "mm", "6", "160", "0.001", "0.003", 75),
    Invented("SW-18", "height gauge", "mm", "0", "600", "0.01", "0.02", 110),
    Invented("SW-19", "bevel protractor", "deg", "0", "180", "0.05", "0.1", 110),
    Invented("SW-20", "torque tester", "lbf-in", "10", "300", "1", "2", 70),
    Invented("SW-21", "torque wrench", "lbf-in", "30", "200", "1", "3", 50),
    Invented("SW-22", "torque wrench", "lbf-in", "150", "1000", "5", "12", 50),
    Invented("SW-23", "spring tester", "lbf", "2", "50", "0.1", "0.2", 90),
    Invented("SW-24", "outside micrometer on a stand", "in", "1", "2", "0.00005", "0.00004", 60),
    Invented("SW-P1", "go plate of a flange face", "in", "0", "0.002", "0.001", "0.0002", 110),
    Invented("SW-T1", "compression tester", "psi", "0", "100", "1", "1", 110),
    Invented("SW-U1", "ultraviolet meter", "uW/cm2", "0", "5000", "10", "50", 100),
    Invented("SW-L1", "light meter", "fc", "0", "20", "0.1", "0.2", 100),
    Invented("SW-G1", "field meter", "G", "-100", "100", "0.1", "0.5", 100),
    Invented(
        "SW-09", "outside micrometer", "in", "2", "3", "0.0001", "0.00012", 300, "dropped on the floor, the anvils are chipped"
    ),
]


def tell(at: datetime, say: Say) -> None:
    keeper = Person.objects.get(username="stores")
    for invented in GAUGES:
        if not Gauge.objects.filter(number=invented.number).exists():
            _tell(invented, keeper, at)


@transaction.atomic
def _tell(invented: Invented, keeper: Person, at: datetime) -> None:
    figures = {
        name: getattr(invented, name) for name in ("number", "description", "unit", "range_min", "range_max", "resolution")
    }
    gauge = add_gauge(**figures, by=keeper, at=at)
    if invented.calibrated_days_ago is not None:
        _calibrate(gauge, invented, timezone.localdate(at) - timedelta(days=invented.calibrated_days_ago), keeper, at)
    if invented.retired:
        retire_gauge(gauge=gauge, reason=invented.retired, by=keeper, at=at)


def _calibrate(gauge: Gauge, invented: Invented, done_on: date, keeper: Person, at: datetime) -> None:
    book_calibration(
        gauge=gauge,
        done_on=done_on,
        due_on=done_on + timedelta(days=DAYS_IN_A_YEAR),
        expanded_u=invented.expanded_u,
        certificate_number=f"demo-{invented.number}",
        laboratory="an invented laboratory",
        by=keeper,
        at=at,
    )
