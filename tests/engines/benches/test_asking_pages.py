"""The customer is asked through the pages, answers on a phone, and each first page says what waits for whom."""

import re
from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from engines.inspection.models import Answer, Discrepancy, Said, WorkAsked
from engines.inspection.services import answer, decide, raise_discrepancy
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.visits.services import add_photo
from shopfloor.people.models import Role
from tests.making_people import PASSWORD, make_customer, make_person
from tests.making_visits import Shop
from tests.permission_rows.benches import ASKED, picture, to_inspection

pytestmark = pytest.mark.django_db
DATA = Data("T2-90 invented manual", "3", "page 4-4")


@pytest.fixture
def shop():
    return Shop()


@pytest.fixture
def found(shop):
    return raised(shop, shop.receive())


def raised(shop, visit):
    shop.tag(visit, "piston", "cylinder 1", mark=f"P-{visit.number}")
    given = {"area": "cylinders", "line": "piston", "place": "cylinder 1", "words": "a crack at the boss"}
    return raise_discrepancy(visit=visit, **given, by=shop.mechanic, at=shop.later())


def key():
    return {"receipt_key": str(uuid4())}


def said(answered):
    return " ".join(answered.content.decode().split())


def opened(client, person, name, *args):
    client.force_login(person)
    return said(client.get(reverse(name, args=args)))


def give(client, person, asked, answered="approved", **changed):
    client.force_login(person)
    given = {"said": answered, "password": PASSWORD, "words": ""} | key() | changed
    return client.post(reverse("benches:answer", args=[asked.pk]), given)


def test_an_inspector_asks_and_the_customer_sees_just_that(client, shop, found):
    shown = add_photo(
        visit=found.visit, area="", words="the boss", data=picture(), name="p.jpg", by=shop.mechanic, at=shop.later()
    )
    kept_back = add_photo(
        visit=found.visit, area="", words="a bill", data=picture("red"), name="p.jpg", by=shop.mechanic, at=shop.later()
    )
    client.force_login(shop.inspector)
    ids = re.findall(r' id="(id_[^"]+)"', said(client.get(reverse("benches:discrepancy", args=[found.pk]))))
    assert sorted(ids) == sorted(set(ids)), "a label would lead to the field of another form"
    form = ASKED | key() | {"photos": [shown.file.sha256]}
    page = said(client.post(reverse("benches:ask", args=[found.pk]), form, follow=True))
    assert "Work on it waits for the answer" in page
    asked = WorkAsked.objects.get()
    page = opened(client, shop.owner(found.visit), "benches:request", asked.pk)
    for words in ("a crack at the boss", "bore it out", "ring set", "900 EUR", shown.file.sha256, "Refuse the work"):
        assert words in page
    assert "A limit or a directive cannot be waived" in page
    assert 'value="waive"' not in page
    assert kept_back.file.sha256 not in page
    assert f"/discrepancies/{found.pk}/" not in page


def test_the_photo_at_the_operation_that_found_it_can_be_shown(client, shop):
    visit = shop.receive()
    to_inspection(shop, visit)
    photo = SimpleUploadedFile("p.jpg", picture(), "image/jpeg")
    seen = {"spot": ("crankshaft", "engine"), "verdict": "not accepted", "words": "a score", "across": None, "down": None}
    shop.enter(visit, "look-crankshaft", **seen, photo=photo)
    sha256 = shop.operation(visit, "look-crankshaft").entries.get().content["photo"]
    found = Discrepancy.objects.get()
    client.force_login(shop.inspector)
    assert client.post(reverse("benches:ask", args=[found.pk]), ASKED | key() | {"photos": [sha256]}).status_code == 302
    client.force_login(shop.owner(visit))
    shown = client.get(reverse("benches:request-photo", args=[WorkAsked.objects.get().pk, sha256]))
    assert shown["Content-Type"] == "image/jpeg"


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"photos": ["0" * 64]}, "is not one of the available choices"),
        ({"kind": "concession"}, "is not one of the available choices"),
        ({"parts": "ring set"}, "begin each line with how many"),
        ({"price": "a lot"}, "is not a number"),
    ],
)
def test_what_cannot_be_asked_stands_beside_the_form(client, shop, found, changed, sentence):
    add_photo(visit=found.visit, area="", words="the boss", data=picture(), name="p.jpg", by=shop.mechanic, at=shop.later())
    client.force_login(shop.inspector)
    refused = client.post(reverse("benches:ask", args=[found.pk]), ASKED | key() | changed)
    assert refused.status_code == 422
    assert sentence in said(refused)
    assert not WorkAsked.objects.exists()


def test_an_answer_sent_twice_is_one_answer_and_another_one_comes_too_late(client, shop, found):
    asked, owner, form = shop.ask(found), shop.owner(found.visit), key()
    first, again = (give(client, owner, asked, "refused", words="too dear", **form) for _ in range(2))
    assert first["Location"] == again["Location"]
    late = give(client, shop.owner(found.visit), asked)
    assert late.status_code == 409
    assert "This request was refused already" in said(late)
    assert Answer.objects.get().words == "too dear"


def test_work_that_waits_is_refused_at_the_discrepancy(client, shop, found):
    made = decide(discrepancy=found, kind=Kind.REPLACE, data=DATA, words="worn", by=shop.inspector, at=shop.later())
    asked = shop.ask(found, Kind.REPLACE)
    page = opened(client, shop.mechanic, "benches:discrepancy", found.pk)
    assert "answer to request 1" in page
    assert "Tag it here" not in page
    form = {"mark": "N-1", "words": "from stores"} | key()
    refused = client.post(reverse("benches:replace", args=[found.pk, made.pk]), form)
    assert refused.status_code == 409
    assert "has not answered yet" in said(refused)
    give(client, shop.owner(found.visit), asked, "refused")
    page = opened(client, shop.inspector, "benches:discrepancy", found.pk)
    assert "<b>Refused</b>: another decision is needed" in page
    assert "The customer refused the work (request 1)" in page
    assert "Not decided" in page


def test_a_customer_answers_for_own_engines_only(client, shop, found):
    asked = shop.ask(found)
    stranger = make_person(Role.CUSTOMER, customer=make_customer())
    assert give(client, stranger, asked).status_code == 404
    assert not Answer.objects.exists()
    client.force_login(stranger)
    assert client.get(reverse("benches-api:requests")).json() == []


def test_programs_list_what_waits_and_answer_once(client, shop, found):
    asked = shop.ask(found)
    client.force_login(shop.owner(found.visit))
    waiting = f"{reverse('benches-api:requests')}?waiting=yes"
    (listed,) = client.get(waiting).json()
    assert (listed["parts"], listed["price"], listed["waits"]) == (["2 ring set", "1 pin"], "1250.00", True)
    address, given = reverse("benches-api:answer", args=[asked.pk]), {"said": "approved", "password": PASSWORD}
    assert client.post(address, given, "application/json").json()["said"] == "approved"
    again = client.post(address, given, "application/json")
    assert (again.status_code, "approved already" in again.json()["detail"]) == (409, True)
    assert client.get(waiting).json() == []


def test_a_customer_finds_what_waits_first_and_then_the_progress(client, shop, found):
    add_photo(visit=found.visit, area="", words="as it came", data=picture(), name="p.jpg", by=shop.mechanic, at=shop.later())
    asked, owner = shop.ask(found), shop.owner(found.visit)
    page = opened(client, owner, "benches:home")
    assert page.index("Waits for your answer") < page.index("stage 1 of 6")
    assert "as it came" in page
    answer(request=asked, said=Said.APPROVED, by=owner, at=shop.later())
    assert "Waits for your answer" not in opened(client, owner, "benches:home")
    assert 'Request 1: rework, 1250.00 EUR</a> <small class="soft">approved' in opened(
        client, owner, "benches:visit", found.visit_id
    )


def test_a_manager_finds_how_long_a_customer_has_not_answered(client, shop, found):
    shop.now = timezone.now() - timedelta(days=3, hours=1)
    shop.ask(found)
    assert "waits for 3 days" in opened(client, shop.manager, "benches:home")


@pytest.mark.parametrize("role", [Role.MANAGER, Role.CUSTOMER])
def test_the_first_page_costs_the_same_for_one_request_and_for_five(client, shop, role):
    person = make_person(role, customer=shop.customer)
    client.force_login(person)
    costs = []
    for engines in (1, 4):
        for _ in range(engines):
            found = raised(shop, shop.receive())
            shop.ask(found)
            add_photo(visit=found.visit, area="", words="p", data=picture(), name="p.jpg", by=shop.mechanic, at=shop.later())
        client.get("/")
        with CaptureQueriesContext(connection) as queries:
            assert client.get("/").status_code == 200
        costs.append(len(queries))
    assert costs[0] == costs[1]
