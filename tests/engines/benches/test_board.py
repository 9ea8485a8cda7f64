"""The board shows every engine of its reader, keeps itself up to date, and asks little when nothing moved."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from engines.catalogue.data import ENGINE
from shopfloor.people.models import Role
from tests.making_packs import running_pack
from tests.making_people import make_customer, make_person
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop():
    return Shop()


def ask(client, etag=""):
    return client.get(reverse("benches:board-lines"), headers={"If-None-Match": etag} if etag else {})


def test_nothing_is_sent_while_nothing_was_recorded(client, shop):
    client.force_login(shop.manager)
    shop.receive()
    etag = ask(client)["ETag"]
    with CaptureQueriesContext(connection) as queries:
        unchanged = ask(client, etag)
    assert (unchanged.status_code, unchanged.content) == (304, b"")
    assert not [query for query in queries if "visits_" in query["sql"]]


def test_what_moved_is_sent(client, shop):
    client.force_login(shop.manager)
    visit = shop.receive()
    etag = ask(client)["ETag"]
    shop.sign(visit, "receive-case")
    shop.advance(visit, "case")
    moved = ask(client, etag)
    assert moved.status_code == 200
    assert "teardown" in moved.content.decode()
    assert moved["ETag"] != etag


def test_two_readers_never_share_an_answer(client, shop):
    customer = make_customer()
    mine, theirs = shop.receive(customer=customer), shop.receive()
    client.force_login(shop.manager)
    etag = ask(client)["ETag"]
    client.force_login(make_person(Role.CUSTOMER, customer=customer))
    own = ask(client, etag)
    assert own.status_code == 200
    assert mine.engine.item.serial in own.content.decode()
    assert theirs.engine.item.serial not in own.content.decode()


def test_the_earliest_promise_stands_first(client, shop):
    today = timezone.localdate()
    later = shop.receive(promised_on=today + timedelta(days=9))
    undated = shop.receive()
    sooner = shop.receive(promised_on=today + timedelta(days=2))
    client.force_login(shop.manager)
    page = client.get(reverse("benches:board")).content.decode()
    places = [page.index(visit.engine.item.serial) for visit in (sooner, later, undated)]
    assert places == sorted(places)


def test_a_whole_engine_lies_on_no_bench_while_its_areas_are_apart(client):
    shop = Shop(running_pack())
    visit = shop.receive()
    lies = f"{visit.engine.item.serial} whole engine"
    client.force_login(shop.manager)
    assert lies not in client.get(reverse("benches:home")).content.decode()
    visit.areas.exclude(code=ENGINE).update(stage="assembly")
    assert lies in client.get(reverse("benches:home")).content.decode()
