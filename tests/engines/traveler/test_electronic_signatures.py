"""Each property of an electronic signature, shown of the product. The table stands in tests/signature_properties.py."""

import hashlib
import json
import re
from datetime import timedelta

import pytest
from django.db import DatabaseError, connection, transaction
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from uuid_utils.compat import uuid7

from engines.traveler.errors import NotAuthorised, SeenOtherwise, SignedAlready
from engines.traveler.meaning import MEANINGS
from engines.traveler.models import Act, Authorisation, Signature
from engines.traveler.services import accept, end_authorisation, enter, reopen, sign
from shopfloor.documents.kinds import document_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.errors import Refused
from shopfloor.people.models import Person, Role
from shopfloor.people.services import add_person, deactivate, erase_person
from tests.making_people import PASSWORD
from tests.making_visits import Shop
from tests.permission_rows.benches import to_inspection
from tests.signature_properties import PROPERTIES, table

CODE = "receive-case"


@pytest.fixture
def shop(db):
    return Shop()


@pytest.fixture
def visit(shop):
    return shop.receive()


def post(client, shop, visit, by=None, **sent):
    client.force_login(by or shop.mechanic)
    given = {"password": PASSWORD, "seen": shop.seen(visit, CODE), "receipt_key": str(uuid7())} | sent
    return client.post(reverse("benches:sign", args=[shop.operation(visit, CODE).pk]), given)


def page(client, shop, visit, by=None):
    client.force_login(by or shop.mechanic)
    shown = client.get(reverse("benches:operation", args=[shop.operation(visit, CODE).pk])).content.decode()
    return " ".join(shown.split())


def looked_at(shop, visit):
    """A hold point that is signed and waits for a second person."""
    to_inspection(shop, visit)
    shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
    return shop.sign(visit, "look-crankshaft")


def faults():
    return [each.sentence for each in verify() if "traveler." in each.sentence or each.chain.startswith("visit")]


def test_every_property_has_its_test_and_every_test_its_property(capsys):
    tests = {name for name in globals() if name.startswith("test_") and "property" not in name}
    assert [each.test for each in PROPERTIES if each.test not in tests] == []
    assert tests == {each.test for each in PROPERTIES}
    print(table())
    assert capsys.readouterr().out.count("shown by:") == len(PROPERTIES)


def test_it_points_to_one_person_though_two_bear_one_name(shop, visit):
    twin = shop.hire(Role.MECHANIC)
    Person.objects.filter(pk=twin.pk).update(name=shop.mechanic.name)
    shop.sign(visit, CODE, twin)
    signed = Signature.objects.get()
    assert signed.signed_by == twin
    event = LedgerEvent.objects.get(kind="signature.given", about_id=str(signed.pk))
    assert (event.body["content"]["signed_by"], event.by) == (str(twin.pk), twin.pk)
    with pytest.raises(Refused):
        add_person(username=twin.username.upper(), name="Another", role=Role.MECHANIC, by=shop.manager, at=shop.later())


def test_a_password_that_the_manager_handed_out_signs_nothing(client, shop, visit):
    person, first = add_person(username="newcomer", name="New", role=Role.MECHANIC, by=shop.manager, at=shop.later())
    shop.trust(person)
    assert post(client, shop, visit, person, password=first)["Location"] == reverse("people:own-password")
    assert not Signature.objects.exists()


def test_it_takes_the_password_again_beside_words_that_say_what_it_means(client, shop, visit):
    shown = page(client, shop, visit)
    form = next(part for part in shown.split("<form") if "/sign/" in part)
    assert 'type="password"' in form
    assert f"Your signature says: “{MEANINGS[Act.DONE]}”" in shown
    for password in ("", "not mine"):
        assert post(client, shop, visit, password=password).status_code in (403, 422)
    assert not Signature.objects.exists()
    assert post(client, shop, visit).status_code == 302
    assert Signature.objects.get().signed_by == shop.mechanic


def test_what_it_means_is_hashed_with_it_and_differs_by_act(shop, visit):
    looked_at(shop, visit)
    shop.accept(visit, "look-crankshaft")
    given = {each.act: each for each in Signature.objects.filter(operation__code="look-crankshaft")}
    assert {act: each.meaning for act, each in given.items()} == {act.value: words for act, words in MEANINGS.items()}
    assert all(each.meaning in each.shown for each in given.values())
    assert given[Act.DONE].shown_sha256 != given[Act.ACCEPTED].shown_sha256


def test_it_is_bound_to_all_that_was_shown_and_to_nothing_that_changed_since(shop, visit):
    to_inspection(shop, visit)
    before = shop.seen(visit, "look-crankshaft")
    shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
    operation = shop.operation(visit, "look-crankshaft")
    with pytest.raises(SeenOtherwise):
        sign(operation=operation, seen_sha256=before, by=shop.mechanic, at=shop.later())
    shop.sign(visit, "look-crankshaft")
    shown = json.loads(Signature.objects.get(operation=operation).shown)
    assert shown["engine"] == visit.engine.item.serial
    assert shown["criterion"] == "No nick, score or corrosion on a journal."
    assert "page 4-1" in shown["source"]
    assert shown["entries"][0]["verdict"] == "accepted"


def test_nothing_is_entered_under_a_signature_that_is_given(shop, visit):
    operation = looked_at(shop, visit)
    later = {"spot": ("crankshaft", "engine"), "verdict": "not accepted", "words": "a nick", "across": None, "down": None}
    with pytest.raises(SignedAlready):
        enter(operation=operation, given=later, by=shop.mechanic, at=shop.later())
    assert operation.entries.count() == 1


def test_guessing_at_an_open_tablet_is_counted_and_stopped(client, shop, visit):
    assert [post(client, shop, visit, password=f"guess {n}").status_code for n in range(6)] == [403] * 5 + [429]
    assert post(client, shop, visit).status_code == 429
    assert not Signature.objects.exists()


def test_who_left_or_lost_the_authority_signs_nothing_from_that_moment(client, shop, visit):
    other = shop.hire(Role.MECHANIC)
    end_authorisation(authorisation=Authorisation.objects.get(person=other, what="work"), by=shop.manager, at=shop.later())
    with pytest.raises(NotAuthorised, match="was ended on"):
        sign(operation=shop.operation(visit, CODE), seen_sha256=shop.seen(visit, CODE), by=other, at=shop.later())
    client.force_login(shop.mechanic)
    deactivate(person=shop.mechanic, by=shop.manager, at=shop.later())
    sent = {"password": PASSWORD, "seen": shop.seen(visit, CODE), "receipt_key": str(uuid7())}
    answer = client.post(reverse("benches:sign", args=[shop.operation(visit, CODE).pk]), sent)
    assert reverse("people:sign-in") in answer["Location"]
    assert not Signature.objects.exists()


def test_signer_moment_and_text_are_sealed_and_a_forged_one_is_found(shop, visit, as_owner):
    shop.sign(visit, CODE)
    signed = Signature.objects.get()
    sealed = LedgerEvent.objects.get(kind="signature.given", about_id=str(signed.pk)).body["content"]
    assert sealed["shown_sha256"] == signed.shown_sha256 == hashlib.sha256(signed.shown.encode()).hexdigest()
    assert sealed["signed_by"] == str(shop.mechanic.pk)
    assert sealed["signed_at"].startswith(f"{signed.signed_at:%Y-%m-%dT%H:%M}")
    assert faults() == []
    for forged in ({"signed_by": shop.second}, {"signed_at": shop.later()}, {"shown_sha256": "0" * 64}, {"shown": "{}"}):
        with as_owner():
            kept = {name: getattr(signed, name) for name in forged}
            Signature.objects.filter(pk=signed.pk).update(**forged)
        assert [sentence for sentence in faults() if str(signed.pk) in sentence], forged
        with as_owner():
            Signature.objects.filter(pk=signed.pk).update(**kept)
    assert faults() == []


def test_it_leads_to_its_signer_also_when_their_name_is_erased(client, shop, visit):
    shop.sign(visit, CODE)
    name = shop.mechanic.name
    erase_person(person=shop.mechanic, by=shop.manager, at=shop.later())
    signed = Signature.objects.select_related("signed_by").get()
    assert (signed.signed_by_id, signed.signed_by.name) == (shop.mechanic.pk, f"erased person {shop.mechanic.pk}")
    shown = page(client, shop, visit, shop.inspector)
    assert f"erased person {shop.mechanic.pk}" in shown
    assert name not in shown
    assert faults() == []


def test_it_names_the_authorisation_that_it_was_given_under(shop, visit):
    shop.sign(visit, CODE)
    signed = Signature.objects.select_related("under").get()
    assert (signed.under.person_id, signed.under.what, "sign-off" in signed.under.kinds) == (shop.mechanic.pk, "work", True)
    event = LedgerEvent.objects.get(kind="signature.given", about_id=str(signed.pk))
    assert event.body["content"]["under"] == str(signed.under_id)


def test_its_moment_is_the_servers_whatever_the_request_says(client, shop, visit):
    before = timezone.now()
    assert post(client, shop, visit, signed_at="2001-01-01T00:00", at="2001-01-01T00:00").status_code == 302
    assert before <= Signature.objects.get().signed_at <= timezone.now() + timedelta(seconds=1)


def test_the_database_itself_refuses_to_alter_or_remove_one(shop, visit):
    shop.sign(visit, CODE)
    for statement in ("UPDATE traveler_signature SET signed_by_id = signed_by_id", "DELETE FROM traveler_signature"):
        with pytest.raises(DatabaseError, match=r"append-only|permission denied"), transaction.atomic():
            connection.cursor().execute(statement)
    assert Signature.objects.get().signed_by == shop.mechanic


def test_an_act_is_signed_once(client, shop, visit):
    key, seen = str(uuid7()), shop.seen(visit, CODE)
    answers = [post(client, shop, visit, seen=seen, receipt_key=key) for _ in range(2)]
    assert [each.status_code for each in answers] == [302, 302]
    assert post(client, shop, visit, by=shop.hire(Role.MECHANIC)).status_code == 409
    with pytest.raises(SignedAlready):
        shop.sign(visit, CODE, shop.second)
    assert Signature.objects.count() == 1


def test_a_correction_opens_a_new_round_and_leaves_the_old_signature(client, shop, visit):
    shop.sign(visit, CODE)
    first = Signature.objects.get()
    reopen(operation=shop.operation(visit, CODE), reason="the order was another", by=shop.inspector, at=shop.later())
    assert not shop.operation(visit, CODE).is_complete
    shop.sign(visit, CODE)
    rounds = list(Signature.objects.order_by("round").values_list("round", "shown_sha256"))
    assert rounds[0] == (1, first.shown_sha256)
    assert [number for number, _ in rounds] == [1, 2]
    assert rounds[0][1] != rounds[1][1]
    shown = page(client, shop, visit)
    assert re.search(r'<li class="struck">Done: [^<]*round 1', shown)
    assert "the order was another" in shown


def test_the_paper_carries_signer_moment_meaning_and_a_hash_that_anybody_can_compute(shop, visit):
    operation = looked_at(shop, visit)
    seen = shop.seen(visit, "look-crankshaft")
    accept(operation=operation, seen_sha256=seen, by=shop.inspector, at=shop.later())
    paper = document_kind("visit-traveler")
    printed = render_to_string(paper.template, {**paper.context(str(visit.pk)), "kind": paper, "document": None})
    for signed in Signature.objects.select_related("signed_by"):
        assert signed.signed_by.name in printed
        assert signed.meaning in printed
        assert f"{timezone.localtime(signed.signed_at):%H:%M}" in printed
        assert hashlib.sha256(signed.shown.encode()).hexdigest() in printed
