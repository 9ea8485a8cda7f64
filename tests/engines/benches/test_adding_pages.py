"""A change during a visit, through the pages: added by one person, approved by another, marked on the area and the operation."""

from uuid import uuid4

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from engines.traveler.models import Authorised, Operation
from engines.visits.models import AddedOperation
from tests.making_authorisations import entrust
from tests.making_people import PASSWORD
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
FIELDS = {
    "stage": "receiving",
    "kind": "sign-off",
    "title": "Look at the studs again",
    "basis": "another document",
    "document": "Maker's letter (invented)",
    "revision": "1",
    "page": "sheet 2",
    "reason": "a stud was found bent",
}


@pytest.fixture
def shop():
    shop = Shop()
    entrust(shop.manager, shop.second, whats=[Authorised.DATA_APPROVAL], by=shop.inspector)
    return shop


@pytest.fixture
def visit(shop):
    return shop.receive()


def said(answer):
    return " ".join(answer.content.decode().split())


def key():
    return {"receipt_key": str(uuid4())}


def ask(client, shop, visit, **fields):
    client.force_login(shop.inspector)
    return client.post(reverse("benches:add-operation", args=[shop.area(visit, "case").pk]), FIELDS | fields | key(), follow=True)


def act(client, name, added, by, **fields):
    client.force_login(by)
    return client.post(reverse(f"benches:{name}", args=[added.pk]), fields | key(), follow=True)


def area_page(client, shop, visit):
    return said(client.get(reverse("benches:area", args=[shop.area(visit, "case").pk])))


def test_from_the_reason_to_the_work(client, shop, visit):
    assert "It waits for another authorised person to approve it." in said(ask(client, shop, visit))
    added = AddedOperation.objects.get()
    page = area_page(client, shop, visit)
    assert "Added, and not approved" in page
    assert reverse("benches:add-operation", args=[shop.area(visit, "case").pk]) in page
    assert "was added and waits for another authorised person to approve it." in page
    page = said(act(client, "approve-addition", added, shop.manager, password=PASSWORD))
    assert "Approved: it is part of the traveler." in page
    page = area_page(client, shop, visit)
    assert f'a stud was found bent <small class="soft">{shop.inspector.name}' in page
    assert f"approved by {shop.manager.name}" in page
    assert "Not from the engine data: the document cited allows it." in page
    assert "Added, and not approved" not in page
    page = said(client.get(reverse("benches:operation", args=[Operation.objects.get(code="added-1").pk])))
    assert "a stud was found bent" in page
    assert "Maker&#x27;s letter (invented), revision 1, sheet 2" in page


def test_what_is_wrong_is_said_and_what_was_typed_stays(client, shop, visit):
    answer = ask(client, shop, visit, kind="torque-group", details="unit: lbf in\nover: the studs", title="Torque the studs")
    page = said(answer)
    assert answer.status_code == 422
    assert "passes is missing" in page
    assert "condition is missing" in page
    for kept in (
        'value="Torque the studs"',
        "over: the studs",
        "a stud was found bent",
        'value="torque-group" selected',
    ):
        assert kept in page
    assert not AddedOperation.objects.exists()


def test_nothing_is_chosen_before_the_person_chooses(client, shop, visit):
    client.force_login(shop.inspector)
    page = said(client.get(reverse("benches:add-operation", args=[shop.area(visit, "case").pk])))
    assert " checked" not in page
    assert '<option value="" selected>choose</option>' in page
    assert page.index('name="basis"') < page.index('name="document"')
    answer = ask(client, shop, visit, basis="")
    assert answer.status_code == 422
    assert not AddedOperation.objects.exists()


@pytest.mark.parametrize(
    ("by", "password", "status", "sentence"),
    [
        ("inspector", PASSWORD, 403, "You asked for this operation, so another"),
        ("second", "not it", 403, "password"),
        ("mechanic", PASSWORD, 403, "Your account may not add operations to a visit"),
    ],
)
def test_who_may_not_approve_it_does_not(client, shop, visit, by, password, status, sentence):
    ask(client, shop, visit)
    answer = act(client, "approve-addition", AddedOperation.objects.get(), getattr(shop, by), password=password)
    assert answer.status_code == status
    assert sentence in said(answer)
    assert not Operation.objects.filter(code="added-1")


def test_refused_with_a_reason_it_is_shown_as_such(client, shop, visit):
    ask(client, shop, visit)
    added = AddedOperation.objects.get()
    assert act(client, "refuse-addition", added, shop.second, words="").status_code == 422
    page = said(act(client, "refuse-addition", added, shop.second, words="the stud is sound"))
    assert "<b>Not to be done.</b> the stud is sound" in page
    assert "Added, and not approved" not in area_page(client, shop, visit)
    assert act(client, "approve-addition", added, shop.manager, password=PASSWORD).status_code == 409


def test_it_waits_on_the_first_page_of_those_who_may_approve(client, shop, visit):
    ask(client, shop, visit)
    for person in (shop.second, shop.manager):
        client.force_login(person)
        assert "Look at the studs again" in said(client.get(reverse("benches:home")))


def test_pages_cost_the_same_with_one_addition_and_with_five(client, shop, visit):
    area = reverse("benches:area", args=[shop.area(visit, "case").pk])

    def add_one():
        ask(client, shop, visit)
        added = AddedOperation.objects.order_by("-asked_at").first()
        act(client, "approve-addition", added, shop.manager, password=PASSWORD)

    def cost(address):
        client.get(address)
        with CaptureQueriesContext(connection) as queries:
            assert client.get(address).status_code == 200
        return len(queries)

    def costs():
        operation = reverse("benches:operation", args=[Operation.objects.get(code="added-1").pk])
        return [cost(each) for each in (area, operation, reverse("benches:home"))]

    add_one()
    shop.sign(visit, "added-1")
    first = costs()
    for number in range(2, 6):
        add_one()
        shop.sign(visit, f"added-{number}")
    assert costs() == first
    assert Operation.objects.filter(code__startswith="added").count() == 5
