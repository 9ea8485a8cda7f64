"""Who may enter, sign, accept and approve: the role lets them ask, the roster decides, and says what to do."""

from datetime import date, timedelta
from itertools import product

import pytest
from django.urls import reverse
from uuid_utils.compat import uuid7

from engines.catalogue.errors import NotAnApprover
from engines.catalogue.services import approve_pack
from engines.steps.kinds.sign_off import SignOff
from engines.steps.registry import STEPS
from engines.traveler import authority
from engines.traveler.errors import NotAuthorised
from engines.traveler.models import Authorisation, Authorised, Entry, Signature
from engines.traveler.needs import ACCEPTING, APPROVING, RELEASING, Need, covering, why_none
from engines.traveler.services import end_authorisation, enter, sign
from engines.traveler.services.signing import sha256_of
from engines.traveler.trades import OTHER, TRADES, in_words, trades
from engines.traveler.work import shown_text, work_on
from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.models import Role
from tests.making_authorisations import entrust
from tests.making_packs import make_checked
from tests.making_people import AT, PASSWORD, make_person
from tests.making_visits import Shop
from tests.permission_rows.benches import to_inspection

DAY, MODEL = date(2026, 3, 2), "T2-90"
CRACKS = Need(Authorised.WORK, "crack test on", "crack-test", 2)
WORK = [Need(Authorised.WORK, f"{step.words} on", kind) for kind, step in STEPS.items() if kind != CRACKS.kind]
NEEDS = [*WORK, CRACKS, ACCEPTING, APPROVING, RELEASING]
STANDINGS = {
    "authorised": ({}, ""),
    "on its first and last day": ({"valid_from": DAY, "valid_until": DAY}, ""),
    "of its model": ({"covers": ["F6-240", MODEL]}, ""),
    "ran out": ({"valid_until": DAY - timedelta(days=1)}, "ran out on 01 Mar 2026"),
    "not begun": ({"valid_from": DAY + timedelta(days=1)}, "begins on 03 Mar 2026"),
    "ended": ({"ended_at": AT}, "ended on 02 Mar 2026"),
    "another model": ({"covers": ["F6-240"]}, "covers F6-240"),
}


def held(need, **fields):
    given = {"what": need.what, "kinds": [need.kind] if need.kind else [], "level": need.level}
    return Authorisation(**given | {"valid_from": date(2026, 1, 1), "covers": []} | fields)


@pytest.mark.parametrize(("need", "standing"), product(NEEDS, STANDINGS), ids=lambda each: getattr(each, "words", each))
def test_each_need_is_answered_by_its_own_authorisation_on_its_days_and_models(need, standing):
    fields, why = STANDINGS[standing]
    mine = held(need, **fields)
    assert covering([mine], need, MODEL, DAY) == (None if why else mine)
    assert why in why_none([mine], need, MODEL, DAY)


def test_no_authorisation_answers_another_need():
    pairs = [(need, other) for need, other in product(NEEDS, NEEDS) if need is not other]
    assert [pair for pair in pairs if covering([held(pair[1], level=3)], pair[0], MODEL, DAY)] == []


@pytest.mark.parametrize(("has", "asked"), list(product(range(4), range(4))))
def test_a_level_answers_itself_and_those_below(has, asked):
    need = Need(Authorised.WORK, "crack test on", "crack-test", asked)
    assert (covering([held(need, level=has)], need, MODEL, DAY) is not None) == (has >= asked)
    if has < asked:
        assert why_none([held(need, level=has)], need, MODEL, DAY) == (
            f"yours is of level {has}, and the data ask for level {asked}"
        )


def test_one_that_is_worn_out_does_not_stand_before_one_that_counts():
    worn, good = held(CRACKS, valid_until=date(2026, 2, 1)), held(CRACKS)
    assert covering([worn, good], CRACKS, MODEL, DAY) is good


def test_every_kind_of_step_is_in_one_trade_and_a_trade_is_named_only_when_whole():
    listed = [kind for kinds in trades().values() for kind in kinds]
    assert sorted(listed) == sorted(STEPS)
    assert len({kind for kinds in TRADES.values() for kind in kinds}) == sum(map(len, TRADES.values()))
    assert OTHER not in trades(), "a kind of step stands in no trade: name it in TRADES"
    assert in_words(TRADES["looking and measuring"]) == ["looking and measuring"]
    assert in_words(["locking", "reading"]) == ["reading", "locking"]


@pytest.fixture
def shop(db):
    return Shop()


@pytest.fixture
def visit(shop):
    return shop.receive()


@pytest.fixture
def stranger(shop):
    """A mechanic by role whom nobody authorised."""
    return make_person(Role.MECHANIC)


def put_name(shop, visit, code, by):
    operation = shop.operation(visit, code)
    seen = sha256_of(shown_text(operation, work_on(visit, operation)))
    return sign(operation=operation, seen_sha256=seen, by=by, at=shop.later())


def test_who_is_not_authorised_neither_enters_nor_signs_and_is_told_who_may(shop, visit, stranger):
    with pytest.raises(NotAuthorised) as refused:
        put_name(shop, visit, "receive-case", stranger)
    assert "no authorisation for sign-off on T2-90 engines" in str(refused.value)
    assert shop.mechanic.name in str(refused.value)
    assert stranger.name not in str(refused.value)
    to_inspection(shop, visit)
    entrust(stranger, by=shop.manager, kinds=["sign-off"])
    with pytest.raises(NotAuthorised, match="visual finding on T2-90"):
        enter(
            operation=shop.operation(visit, "look-crankshaft"),
            given={"spot": ("crankshaft", "engine"), "verdict": "accepted", "words": "", "across": None, "down": None},
            by=stranger,
            at=shop.later(),
        )
    assert not Entry.objects.filter(entered_by=stranger).exists()


def test_an_ended_authorisation_refuses_at_once_and_what_was_signed_under_it_stays(shop, visit, stranger):
    (mine,) = entrust(stranger, by=shop.manager)
    assert put_name(shop, visit, "receive-case", stranger).is_complete
    shop.advance(visit, "case")
    shop.tag_all(visit, "crankshaft", "case-half")
    end_authorisation(authorisation=mine, by=shop.manager, at=shop.later())
    with pytest.raises(NotAuthorised, match="was ended on 02 Mar 2026"):
        put_name(shop, visit, "tag-case", stranger)
    signature = Signature.objects.get(signed_by=stranger)
    assert (signature.under, shop.operation(visit, "receive-case").is_complete) == (mine, True)
    event = LedgerEvent.objects.get(kind="signature.given", about_id=str(signature.pk))
    assert event.body["content"]["under"] == str(mine.pk)


def test_the_level_that_the_data_ask_is_held_against_the_person(shop, visit, stranger, monkeypatch):
    monkeypatch.setattr(SignOff, "level", lambda self, operation: 2)
    entrust(stranger, by=shop.manager, level=1)
    with pytest.raises(NotAuthorised, match="level 1, and the data ask for level 2"):
        put_name(shop, visit, "receive-case", stranger)
    entrust(stranger, by=shop.manager, level=2)
    assert put_name(shop, visit, "receive-case", stranger).is_complete


def test_accepting_asks_for_hold_points(shop, visit):
    to_inspection(shop, visit)
    shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
    shop.sign(visit, "look-crankshaft")
    worker = make_person(Role.INSPECTOR)
    shop.trusted.add(worker)
    entrust(worker, by=shop.manager)
    with pytest.raises(NotAuthorised, match="accepting hold points on T2-90"):
        shop.accept(visit, "look-crankshaft", worker)
    entrust(worker, whats=[Authorised.HOLD_POINTS], by=shop.manager)
    assert shop.accept(visit, "look-crankshaft", worker).accepted_by == worker
    assert Signature.objects.get(signed_by=worker).under.what == Authorised.HOLD_POINTS


def test_approving_asks_for_approval_of_data(db):
    loader, inspector = make_person(Role.MANAGER), make_person(Role.INSPECTOR)
    pack = make_checked(loader, inspector)
    with pytest.raises(NotAnApprover, match=r"approving the data of T2-90.*Authorised today: nobody"):
        approve_pack(pack=pack, by=inspector, at=AT)
    entrust(inspector, whats=[Authorised.DATA_APPROVAL], by=loader, covers=[MODEL])
    assert approve_pack(pack=pack, by=inspector, at=AT).approved_by == inspector


def test_the_page_says_why_and_the_request_is_refused_in_the_same_words(client, shop, visit, stranger):
    address = reverse("benches:operation", args=[shop.operation(visit, "receive-case").pk])
    client.force_login(stranger)
    page = client.get(address).content.decode()
    why = "You have no authorisation for sign-off on T2-90 engines"
    assert why in page
    assert 'disabled aria-describedby="not-yours">Sign' in page
    sent = {"password": PASSWORD, "seen": shop.seen(visit, "receive-case"), "receipt_key": uuid7()}
    answer = client.post(f"{address}sign/", sent)
    assert (answer.status_code, why in answer.content.decode()) == (403, True)
    client.force_login(shop.mechanic)
    assert why not in client.get(address).content.decode()


def test_a_hold_point_that_one_may_not_accept_says_so(client, shop, visit):
    to_inspection(shop, visit)
    shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
    operation = shop.sign(visit, "look-crankshaft")
    client.force_login(make_person(Role.INSPECTOR))
    page = client.get(reverse("benches:operation", args=[operation.pk])).content.decode()
    assert 'disabled aria-describedby="not-acceptor">Accept' in page
    client.force_login(shop.second)
    assert (
        'class="button">Accept this hold point' in client.get(reverse("benches:operation", args=[operation.pk])).content.decode()
    )


@pytest.mark.parametrize("allowed", [True, False])
def test_asking_costs_the_same_however_long_the_roster(shop, stranger, allowed, django_assert_num_queries):
    need = Need(Authorised.WORK, "locking on", "locking")
    if allowed:
        entrust(stranger, by=shop.manager)
    for extra in (1, 30):
        entrust(*[make_person(Role.MECHANIC) for _ in range(extra)], by=shop.manager)
        entrust(*[stranger] * extra, by=shop.manager, ended_at=AT, ended_by=shop.manager)
        with django_assert_num_queries(1 if allowed else 2):
            assert bool(authority.why_not(stranger, need, MODEL, DAY)) != allowed


def test_the_manager_grants_a_whole_trade_in_one_act(client, shop, stranger):
    client.force_login(shop.manager)
    sent = {"person": stranger.pk, "what": "work", "trades": ["hand work at assembly"], "kinds": ["reading"], "level": ""}
    sent |= {"valid_from": "2026-01-05", "training": "bench course", "receipt_key": uuid7()}
    assert client.post(reverse("benches:authorise"), sent).status_code == 302
    granted = Authorisation.objects.get(person=stranger)
    assert set(granted.kinds) == {*TRADES["hand work at assembly"], "reading"}
    page = client.get(reverse("benches:roster")).content.decode()
    assert "work at operations: reading, hand work at assembly" in " ".join(page.split())
