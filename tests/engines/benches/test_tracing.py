"""An auditor follows one part, years later."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from engines.inspection.services import decide
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.parts.models import Item
from shopfloor.people.models import Role
from tests.making_people import make_person
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def auditor(client):
    client.force_login(make_person(Role.AUDITOR))
    return client


@pytest.fixture
def shop():
    return Shop()


def test_a_piston_is_found_by_its_serial_with_all_that_happened_to_it(auditor, shop):
    visit = shop.receive()
    shop.tag(visit, "piston", "cylinder 1", "P-4711")
    shop.tag(visit, "piston", "cylinder 2", "P-4712")
    shop.read(visit, "skirt-diameter", "cylinder 1", "4.3500")
    shop.read(visit, "skirt-diameter", "cylinder 2", "4.3635")
    found = visit.discrepancies.get()
    data = Data("T2-90 invented manual", "3", "page 4-4")
    decide(discrepancy=found, kind=Kind.SCRAP, data=data, words="worn out", by=shop.inspector, at=shop.later())
    page = auditor.get(reverse("benches:search"), {"text": "p-4711"}).content.decode()
    assert "P-4711" in page
    assert "P-4712" not in page
    told = auditor.get(reverse("benches:trace", args=[Item.objects.get(serial="P-4711").pk])).content.decode()
    for words in (visit.engine.item.serial, "4.3500 in, outside limits", "scrap: worn out", "page 4-4", "was scrapped"):
        assert words in told
    assert "4.3635" not in told


def test_what_is_not_on_record_is_said(auditor):
    assert "No part begins with" in auditor.get(reverse("benches:search"), {"text": "nothing"}).content.decode()


def test_a_long_life_costs_as_many_queries_as_a_short_one(auditor, shop):
    visit, costs = shop.receive(), []
    shop.tag(visit, "piston", "cylinder 1", "P-1")
    address = reverse("benches:trace", args=[Item.objects.get(serial="P-1").pk])
    auditor.get(address)
    for readings in (1, 6):
        for _ in range(readings):
            shop.read(visit, "skirt-diameter", "cylinder 1", "4.3500")
        with CaptureQueriesContext(connection) as queries:
            auditor.get(address)
        costs.append(len(queries))
    assert costs[0] == costs[1]
