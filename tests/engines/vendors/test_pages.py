"""Pages of vendors and orders: what each reader finds there, and what it costs."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from uuid_utils.compat import uuid7

from engines.vendors.models import Vendor
from engines.vendors.services import approve
from shopfloor.people.models import Role
from tests.making_parts import make_item
from tests.making_people import AT, make_person
from tests.making_vendors import Grinding, make_vendor, ordered

pytestmark = pytest.mark.django_db
TODAY = timezone.localdate()
YESTERDAY = TODAY - timedelta(days=1)


@pytest.fixture
def keeper(client):
    keeper = make_person(Role.STOREKEEPER)
    client.force_login(keeper)
    return keeper


@pytest.fixture
def errand():
    """A vendor approved also today, whatever the day is on which this runs."""
    errand = Grinding()
    days = {"valid_from": TODAY - timedelta(days=60), "valid_until": TODAY + timedelta(days=30)}
    given = {"reference": "V-9", "scope": "grinding: crankshaft", "words": "seen"}
    approve(vendor=errand.vendor, **given, **days, by=errand.shop.manager, at=AT)
    return errand


def post(client, act, pk=None, **given):
    args = [pk] if pk else []
    return client.post(reverse(f"vendors:{act}", args=args), {"receipt_key": str(uuid7()), **given})


def page(client, address, *args):
    return client.get(reverse(address, args=args)).content.decode()


def test_a_vendor_is_added_approved_suspended_and_restored(client, keeper):
    assert "The register is empty" in page(client, "vendors:vendors")
    post(client, "add", name="Invented Plating", address="Quay 4")
    vendor = Vendor.objects.get()
    assert "has no approval that had begun" in page(client, "vendors:vendor", vendor.pk)
    approval = {
        "reference": "P-1",
        "scope": "Plating: barrel",
        "words": "audited",
        "valid_from": "2026-01-01",
        "valid_until": "2099-01-01",
    }
    assert post(client, "approve", vendor.pk, **approval).status_code == 302
    assert "plating: barrel" in page(client, "vendors:vendors")
    assert post(client, "suspend", vendor.pk, suspended_on="2026-02-01", reason="wrong thickness").status_code == 302
    shown = page(client, "vendors:vendors")
    assert "nothing goes there" in shown
    assert "suspended since 2026-02-01: wrong thickness" in shown
    assert post(client, "suspend", vendor.pk, suspended_on="2026-02-01", reason="again").status_code == 409
    assert post(client, "lift", vendor.pk, words="audited anew").status_code == 302
    assert "audited anew" in page(client, "vendors:vendor", vendor.pk)


def test_a_storekeeper_sends_the_part_and_books_it_back_in(client, errand, keeper):
    shop = errand.shop
    client.force_login(shop.mechanic)
    operation = shop.operation(errand.visit, "grind")
    address = reverse("benches:operation", args=[operation.pk])
    assert "Grind the mains to the 0.010 undersize. Which vendor?" in client.get(address).content.decode()
    given = {"asked": "order the work: crankshaft, engine", "answer": str(errand.vendor.pk), "due_on": str(TODAY)}
    assert client.post(f"{address}enter/", {"receipt_key": str(uuid7()), **given}).status_code == 302
    order = errand.order
    client.force_login(keeper)
    assert f"Order {order.number}, Invented Grinding" in page(client, "benches:home")
    assert post(client, "send", order.pk, words="by the van").status_code == 302
    papers = {"certificate": "C-1", "dated": str(TODAY), "did": "ground", "paper_0": "DS-1"}
    assert post(client, "back", order.pk, **papers).status_code == 422
    assert post(client, "back", order.pk, **papers, paper_1="CT-1").status_code == 302
    assert "Certificate C-1" in page(client, "vendors:order", order.pk)
    client.force_login(shop.mechanic)
    look = {"asked": "look at what came back: crankshaft, engine", "answer": "as asked", "words": ""}
    assert client.post(f"{address}enter/", {"receipt_key": str(uuid7()), **look}).status_code == 403
    client.force_login(shop.inspector)
    assert client.post(f"{address}enter/", {"receipt_key": str(uuid7()), **look}).status_code == 302
    assert "back, as asked" in client.get(address).content.decode()


def test_a_vendor_that_may_not_do_it_stands_in_the_list_with_the_reason_and_is_refused_by_name(client, errand):
    shop = errand.shop
    other = make_vendor(shop.manager, "Other Works", scope="")
    client.force_login(shop.mechanic)
    address = reverse("benches:operation", args=[shop.operation(errand.visit, "grind").pk])
    assert "Other Works. Not for this: Other Works has no approval" in client.get(address).content.decode()
    given = {"asked": "order the work: crankshaft, engine", "answer": str(other.pk), "due_on": str(TODAY)}
    refused = client.post(f"{address}enter/", {"receipt_key": str(uuid7()), **given})
    assert refused.status_code == 409
    assert "Other Works has no approval that had begun on" in refused.content.decode()


def test_the_board_the_area_and_the_engine_say_that_they_wait_for_a_vendor(client, errand):
    errand.place()
    errand.send()
    client.force_login(errand.shop.manager)
    assert "Crankshaft crankshaft-engine is out with Invented Grinding, due 2026-03-20" in page(client, "benches:board")
    area = page(client, "benches:area", errand.shop.area(errand.visit, "case").pk)
    assert "Crankshaft, engine, is out with Invented Grinding (order 1, due 2026-03-20)." in area
    assert "Order 1, Invented Grinding" in page(client, "benches:visit", errand.visit.pk)
    assert "Order 1, Invented Grinding" in page(client, "benches:trace", errand.order.item_id)


def test_a_manager_sees_which_vendor_is_late(client, errand):
    errand.shop.now = timezone.now() - timedelta(days=40)
    errand.place(due_on=TODAY + timedelta(days=1))
    errand.send()
    client.force_login(errand.shop.manager)
    assert "Vendors are late" not in page(client, "benches:home")
    ordered(errand.vendor, make_item(errand.shop.mechanic), errand.visit.engine, errand.shop.mechanic, errand.shop.now, YESTERDAY)
    shown = page(client, "benches:home")
    assert "Vendors are late" in shown
    assert "Order 2, Invented Grinding" in shown
    assert 'class="late">late' in page(client, "vendors:orders")


def test_an_order_comes_back_without_its_papers_or_is_withdrawn(client, errand, keeper):
    order = errand.place()
    assert post(client, "withdraw", order.pk, words="ground here").status_code == 302
    assert post(client, "withdraw", order.pk, words="again").status_code == 409
    order = errand.place()
    assert post(client, "without", order.pk, without="lost").status_code == 409
    errand.send()
    assert post(client, "without", order.pk, without="lost").status_code == 302
    assert "Without its papers" in page(client, "vendors:order", order.pk)


def test_pages_cost_the_same_for_one_order_and_for_many(client, errand, keeper):
    errand.place()
    errand.send()
    operation = errand.shop.operation(errand.visit, "grind")
    addresses = [
        reverse("vendors:vendors"),
        reverse("vendors:orders"),
        reverse("vendors:vendor", args=[errand.vendor.pk]),
        reverse("vendors:order", args=[errand.order.pk]),
        reverse("benches:operation", args=[operation.pk]),
        reverse("benches:board"),
        reverse("benches:home"),
    ]
    for address in addresses:
        client.get(address)
    first = [cost(client, address) for address in addresses]
    for number in range(5):
        vendor = make_vendor(keeper, f"Works {number}")
        for each in (vendor, errand.vendor):
            ordered(each, make_item(keeper), errand.visit.engine, keeper)
    assert [cost(client, address) for address in addresses] == first


def cost(client, address):
    with CaptureQueriesContext(connection) as queries:
        assert client.get(address).status_code == 200
    return len(queries)
