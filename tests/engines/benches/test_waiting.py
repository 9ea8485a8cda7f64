"""What each person finds on the first page when engines are in the shop, and that it costs the same however many there are."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from engines.inspection.models import Discrepancy
from engines.inspection.services import decide, raise_discrepancy, sign_second
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.visits.services import Identity, tag_replacement
from shopfloor.people.models import Role
from tests.making_people import make_customer, make_person
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
DATA = Data("T2-90 invented manual", "3", "page 4-4")


@pytest.fixture
def shop():
    return Shop()


def first_page(client, person):
    client.force_login(person)
    return client.get("/").content.decode()


def raised(shop, visit):
    return raise_discrepancy(
        visit=visit, area="cylinders", line="piston", place="cylinder 1", words="a crack", by=shop.mechanic, at=shop.later()
    )


def decided(shop, found, kind):
    return decide(discrepancy=found, kind=kind, data=DATA, words="as the data say", by=shop.inspector, at=shop.later())


def test_a_mechanic_finds_what_can_be_done_and_nothing_else(client, shop):
    visit = shop.receive()
    page = first_page(client, shop.mechanic)
    assert "Identity and papers" in page
    assert "Strip and tag the case" not in page
    shop.sign(visit, "receive-case")
    shop.advance(visit, "case")
    page = first_page(client, shop.mechanic)
    assert "Strip and tag the case" in page
    assert "Identity and papers" not in page


def test_an_inspector_finds_hold_points_decisions_and_data(client, shop):
    visit = shop.receive()
    raised(shop, visit)
    page = first_page(client, shop.inspector)
    assert "a crack" in page
    decided(shop, Discrepancy.objects.get(), Kind.REWORK)
    assert "a crack" not in first_page(client, shop.inspector)


def test_a_concession_waits_for_its_second_signature_and_stays_undecided_till_then(client, shop):
    made = decided(shop, raised(shop, shop.receive()), Kind.CONCESSION)
    page = first_page(client, shop.second)
    assert page.count("discrepancy 1</a>") == 2
    sign_second(disposition=made, by=shop.second, at=shop.later())
    assert "discrepancy 1</a>" not in first_page(client, shop.second)


def test_a_storekeeper_finds_what_is_wanted_until_it_is_there(client, shop):
    keeper, visit = make_person(Role.STOREKEEPER), shop.receive()
    shop.tag_all(visit, "piston")
    decided(shop, raised(shop, visit), Kind.REPLACE)
    assert "piston, cylinder 1</a>" in first_page(client, keeper)
    identity = Identity(mark="NEW-1")
    tag_replacement(
        visit=visit, line="piston", place="cylinder 1", identity=identity, words="new", by=shop.mechanic, at=shop.later()
    )
    assert "piston, cylinder 1</a>" not in first_page(client, keeper)


def test_a_manager_finds_what_lies_on_which_bench(client, shop):
    visit = shop.receive(bench="window bench")
    page = first_page(client, shop.manager)
    assert "<dt>window bench</dt>" in page
    assert visit.engine.item.serial in page


def test_a_customer_finds_own_engines_only(client, shop):
    own, other = make_customer(), make_customer()
    mine, theirs = shop.receive(customer=own), shop.receive(customer=other)
    page = first_page(client, make_person(Role.CUSTOMER, customer=own))
    assert mine.engine.item.serial in page
    assert theirs.engine.item.serial not in page


@pytest.mark.parametrize("role", [Role.MANAGER, Role.MECHANIC, Role.INSPECTOR, Role.STOREKEEPER])
def test_the_first_page_costs_the_same_for_one_engine_and_for_eight(client, shop, role):
    person = make_person(role)
    client.force_login(person)
    raised(shop, shop.receive())
    client.get("/")
    costs = []
    for engines in (0, 7):
        for _ in range(engines):
            raised(shop, shop.receive())
        with CaptureQueriesContext(
            connection,
        ) as queries:
            assert client.get("/").status_code == 200
        costs.append(len(queries))
    assert costs[0] == costs[1]
