"""A traveler of 400 operations opens and signs in as many queries as one of 40."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.making_travelers import LongTraveler

pytestmark = pytest.mark.django_db


def queries_of(client, operations: int) -> dict[str, int]:
    long = LongTraveler(operations)
    client.force_login(long.shop.mechanic)
    (address, form), found = long.signing(), {}
    for name, ask, status in (
        ("area", lambda: client.get(long.area_page), 200),
        ("operation", lambda: client.get(long.operation_page), 200),
        ("signature", lambda: client.post(address, form), 302),
    ):
        ask() if name != "signature" else None
        with CaptureQueriesContext(connection) as queries:
            answer = ask()
        assert answer.status_code == status
        found[name] = len(queries)
    assert long.shop.operation(long.visit, long.open_one).signed_by == long.shop.mechanic
    return found


def test_four_hundred_operations_cost_what_forty_cost(client):
    few = queries_of(client, 40)
    assert queries_of(client, 400) == few
    assert max(few.values()) < 40, few
