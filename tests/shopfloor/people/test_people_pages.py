"""Pages of persons and customers: what is shown, to whom, in how many queries, and what a refusal says."""

import pytest
from django.urls import reverse

from shopfloor.people.models import Customer, Person, Role
from tests.making_people import make_customer, make_person


def _page(client, name, *args):
    return " ".join(client.get(reverse(name, args=args)).content.decode().split())


def _crowd(size):
    for _ in range(size):
        make_person(Role.MECHANIC, Role.INSPECTOR)
        make_person(Role.CUSTOMER, customer=make_customer())


@pytest.mark.parametrize("name", ["people:persons", "people:customers", "people-api:persons"])
def test_lists_take_the_same_queries_however_many_persons(client, manager, django_assert_num_queries, name):
    client.force_login(manager)
    counts = []
    for size in (1, 12):
        _crowd(size)
        with _counted_queries() as queries:
            assert client.get(reverse(name)).status_code == 200
        counts.append(len(queries))
    assert counts[0] == counts[1] <= 7


def _counted_queries():
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    return CaptureQueriesContext(connection)


def test_the_list_shows_roles_in_the_words_of_the_trade(client, manager):
    make_person(Role.STOREKEEPER, Role.MECHANIC, username="stores")
    client.force_login(manager)
    page = _page(client, "people:persons")
    assert "mechanic, storekeeper" in page
    assert "shop manager" in page


def test_the_auditor_reads_and_is_offered_no_act(client, manager, mechanic):
    client.force_login(make_person(Role.AUDITOR))
    for page in (_page(client, "people:persons"), _page(client, "people:person", mechanic.pk), _page(client, "people:customers")):
        main = page.partition("<main")[2].partition("</main>")[0]
        assert "<form" not in main
        assert "Add a person" not in main


def test_the_manager_is_offered_acts_on_others_but_not_on_self(client, manager, mechanic):
    client.force_login(manager)
    assert "End this role" in _page(client, "people:person", mechanic.pk)
    own = _page(client, "people:person", manager.pk)
    assert "another shop manager changes its roles" in own
    assert "End this role" not in own


def test_a_refused_act_says_why_on_the_persons_page(client, manager, mechanic):
    client.force_login(manager)
    answer = client.post(reverse("people:grant-role", args=[mechanic.pk]), {"role": "customer"})
    assert answer.status_code == 409
    assert "held with no other role" in answer.content.decode()


def test_a_refused_permission_says_what_to_do(client, mechanic):
    client.force_login(mechanic)
    page = _page(client, "people:persons")
    assert "Your account may not see the list of persons. Held by: shop manager, auditor. Ask a shop manager" in page


def test_a_program_that_reads_json_is_answered_in_json(client, mechanic):
    address = reverse("people:persons")
    assert client.get(address, headers={"Accept": "application/json"}).json()["detail"] == "Sign in first."
    client.force_login(mechanic)
    answer = client.get(address, headers={"Accept": "application/json"})
    assert answer.status_code == 403
    assert "may not see" in answer.json()["detail"]


def test_a_fragment_leads_back_to_the_page_it_stood_on(client, db):
    seen = {"HX-Request": "true", "HX-Current-URL": "http://testserver/people/?page=2"}
    answer = client.get(reverse("people:persons"), headers=seen)
    assert answer.status_code == 401
    assert answer.headers["HX-Redirect"] == "/people/sign-in/?next=%2Fpeople%2F"


def test_an_unknown_address_says_what_to_do(client, db):
    answer = client.get("/no/such/bench/")
    assert answer.status_code == 404
    assert "Check the address" in answer.content.decode()


def test_a_manager_adds_a_person_and_reads_the_first_password_once(client, manager):
    client.force_login(manager)
    typed = {"username": "Stores", "name": "The storekeeper", "role": "storekeeper"}
    answer = client.post(reverse("people:add"), typed)
    assert answer.status_code == 201
    assert "no-store" in answer.headers["Cache-Control"]
    assert Person.objects.get(username="stores").must_change_password


@pytest.mark.parametrize("username", ["two words", "-dash", "", "näme", "x" * 61, "nul\x00l"])
def test_a_bad_sign_in_name_is_refused_and_nothing_is_saved(client, manager, username):
    client.force_login(manager)
    assert client.post(reverse("people:add"), {"username": username, "name": "Somebody"}).status_code == 400
    assert Person.objects.count() == 1


def test_a_taken_name_is_refused_in_words(client, manager):
    client.force_login(manager)
    answer = client.post(reverse("people:add"), {"username": "MANAGER", "name": "Another"})
    assert answer.status_code == 409
    assert "is taken" in answer.content.decode()


@pytest.mark.parametrize("name", ["Lowfold Flying Club", "LOWFOLD flying club"])
def test_a_customer_is_added_once(client, manager, name):
    make_customer("Lowfold Flying Club")
    client.force_login(manager)
    answer = client.post(reverse("people:add-customer"), {"name": name})
    assert answer.status_code == 409
    assert Customer.objects.count() == 1


def test_a_manager_links_a_person_to_a_customer(client, manager):
    customer, guest = make_customer("Estuary Survey Air"), make_person(Role.CUSTOMER)
    client.force_login(manager)
    client.post(reverse("people:link", args=[guest.pk]), {"customer": customer.pk})
    assert "Estuary Survey Air" in _page(client, "people:person", guest.pk)
    assert guest.name in _page(client, "people:customers")


def test_erasing_asks_for_the_name_first(client, manager, mechanic):
    client.force_login(manager)
    address = reverse("people:erase", args=[mechanic.pk])
    assert client.post(address, {"confirm": "mechanic"}).status_code == 400
    assert client.post(address, {"confirm": "mechanic1"}).status_code == 302
    page = _page(client, "people:person", mechanic.pk)
    assert f"erased person {mechanic.pk}" in page
    assert "mechanic1" not in page
