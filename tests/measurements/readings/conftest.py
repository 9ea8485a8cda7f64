"""A mechanic with a gauge in calibration."""

import pytest

from shopfloor.people.models import Role
from tests.making_gauges import calibrated, make_gauge
from tests.making_people import make_person


@pytest.fixture
def mechanic():
    return make_person(Role.MECHANIC)


@pytest.fixture
def gauge(mechanic):
    return calibrated(make_gauge(mechanic), mechanic)
