"""A sign-off waits until every lock that the data name was seen and noted."""

from dataclasses import replace

import pytest
from django.template.loader import render_to_string
from django.urls import reverse

from engines.packs.reading import PackMistakes, pack_of
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from shopfloor.documents.kinds import document_kind
from tests.making_steps import LOCKS, stepped_pack
from tests.making_visits import Shop
from tests.pack_files import files_of

BOTH = ["cylinder bolts", "case bolts"]


@pytest.fixture
def shop():
    return Shop(stepped_pack())


@pytest.mark.django_db
def test_it_is_signed_only_when_every_lock_is_noted(shop):
    visit = shop.receive()
    shop.enter(visit, "locks", locked=BOTH[:1])
    with pytest.raises(NotYet, match=r"case bolts: its lock is not noted \(tab\)"):
        shop.sign(visit, "locks")
    shop.enter(visit, "locks", locked=BOTH[1:])
    assert shop.sign(visit, "locks").is_complete


@pytest.mark.django_db
@pytest.mark.parametrize("locked", [[], ["sump plug"], ["cylinder bolts", "sump plug"]])
def test_a_lock_that_the_data_do_not_name_is_not_noted(shop, locked):
    visit = shop.receive()
    with pytest.raises(StepRefused, match="Tick the locks that you have seen"):
        shop.enter(visit, "locks", locked=locked)


@pytest.mark.django_db
def test_a_joint_that_is_opened_again_has_lost_its_locks(shop):
    visit = shop.receive()
    shop.enter(visit, "locks", locked=BOTH)
    shop.sign(visit, "locks")
    reopen(operation=shop.operation(visit, "locks"), reason="one bolt was turned", by=shop.inspector, at=shop.later())
    with pytest.raises(NotYet, match="cylinder bolts: its lock is not noted"):
        shop.sign(visit, "locks")


@pytest.mark.django_db
def test_the_page_asks_for_each_lock_and_the_paper_prints_it(shop, client):
    visit = shop.receive()
    operation = shop.operation(visit, "locks")
    client.force_login(shop.mechanic)
    shown = client.get(reverse("benches:operation", args=[operation.pk])).content.decode()
    assert all(f"{lock['joint']}: {lock['method']}" in shown for lock in LOCKS)
    shop.enter(visit, "locks", locked=BOTH[:1])
    shown = client.get(reverse("benches:operation", args=[operation.pk])).content.decode()
    assert "seen locked" in shown
    assert "case bolts: its lock is not noted" in shown
    paper = document_kind("visit-traveler")
    printed = render_to_string(paper.template, {**paper.context(str(visit.pk)), "kind": paper, "document": None})
    assert "Locks: joint cylinder bolts, method wire; joint case bolts, method tab" in printed
    assert "locked: cylinder bolts (wire)" in printed


@pytest.mark.parametrize(
    ("locks", "said"),
    [
        ("wire", "locks are a list, each with joint and method"),
        ([], "locks are a list"),
        ([{"joint": "case bolts"}], "locks are a list"),
        ([LOCKS[0], LOCKS[0]], "the joint “cylinder bolts” is locked twice"),
    ],
)
def test_locks_that_cannot_be_noted_are_refused(locks, said):
    pack = stepped_pack()
    changed = [replace(each, details={"locks": locks}) if each.code == "locks" else each for each in pack.operations]
    with pytest.raises(PackMistakes, match=said):
        pack_of({name: text.encode() for name, text in files_of(replace(pack, operations=tuple(changed))).items()})
