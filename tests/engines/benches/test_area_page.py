"""The page of an area says what can be done now, and of each of the rest why it cannot."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from tests.making_visits import Shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop():
    return Shop()


@pytest.fixture
def visit(shop):
    return shop.receive()


def page(client, shop, visit, code="cylinders"):
    client.force_login(shop.mechanic)
    return " ".join(client.get(reverse("benches:area", args=[shop.area(visit, code).pk])).content.decode().split())


def line(shown, title):
    """What is said beside an operation."""
    return shown.split(f">{title}</a>")[1].split("</li>")[0]


def test_what_has_its_turn_can_be_done_and_the_rest_says_why_not(client, shop, visit):
    shown = page(client, shop, visit)
    assert "can be done now" in line(shown, "Cylinders are complete")
    later = line(shown, "Strip and tag the cylinders")
    assert "can be done now" not in later
    assert "Cylinders stands in receiving, this belongs to teardown." in later
    assert "“Cylinders are complete” must be complete first." in later


def test_what_waits_for_another_area_names_its_operation(client, shop, visit):
    shop.sign(visit, "receive-cylinders")
    shop.advance(visit, "cylinders")
    waiting = line(page(client, shop, visit), "Strip and tag the cylinders")
    assert "“Identity and papers” must be complete first." in waiting
    assert "stands in" not in waiting
    shop.sign(visit, "receive-case")
    assert "can be done now" in line(page(client, shop, visit), "Strip and tag the cylinders")


def test_everything_that_is_not_complete_says_one_or_the_other(client, shop, visit):
    shown = page(client, shop, visit, "case")
    operations = shop.area(visit, "case").operations.all()
    assert len(operations) > 5
    for operation in operations:
        said = line(shown, operation.title)
        assert ("can be done now" in said) != ("must be complete first." in said or "this belongs to" in said)


def test_a_hold_point_that_is_signed_says_who_it_waits_for(client, shop, visit):
    shop.sign(visit, "receive-case")
    assert f"complete</b>, {shop.mechanic.name}" in line(page(client, shop, visit, "case"), "Identity and papers")


def test_it_costs_the_same_with_one_signed_and_with_more(client, shop, visit):
    def cost(code):
        page(client, shop, visit, code)
        with CaptureQueriesContext(connection) as queries:
            page(client, shop, visit, code)
        return len(queries)

    shop.sign(visit, "receive-case")
    shop.advance(visit, "case")
    shop.tag_all(visit, "crankshaft", "case-half")
    before = cost("case")
    shop.sign(visit, "tag-case", by=shop.inspector)
    assert cost("case") == before
