"""Nothing goes on with parts that the data do not let go together, whatever was signed before. All invented."""

import pytest

from engines.catalogue.data import RenewedSet
from engines.release.gates.paired import pairings_hold
from engines.release.gates.parts import sets_renewed_together
from engines.release.queries import situation_of
from tests.making_packs import UNDER, page
from tests.making_pairings import MAINS, new_part, paired, paired_pack
from tests.making_visits import Shop

BOLTING = RenewedSet(code="bolting", name="Main bolts with their nuts", lines=("bolt", "nut"), source=page("5-2"))


def held(gate, work, area):
    return [(each.sentence, each.about) for each in gate(situation_of(work.shop.area(work.visit, area)))]


@pytest.fixture
def signed(db):
    work = paired()
    for _ in MAINS:
        for _ in ("journal", "shell"):
            work.answer(answer="standard", what="", reason="")
    work.sign()
    return work


def test_a_signed_pairing_holds_while_its_parts_stay(signed):
    assert held(pairings_hold, signed, "engine") == []


def test_another_shell_after_the_signature_opens_it_again(signed):
    new_part(signed, "shell", "main 2", mark="S-9")
    [(sentence, about)] = held(pairings_hold, signed, "engine")
    assert sentence.startswith("main 2: another bearing shell is there now than Bearing shell shell-main 2.")
    assert sentence.endswith("Open “As the data say” again.")
    assert about == "operation"
    assert held(pairings_hold, signed, "case") == []


def test_a_journal_ground_after_the_signature_opens_it_again(signed):
    signed.shop.read(signed.visit, "crank-main", "main 1", "2.1145", size_class=UNDER)
    [(sentence, _)] = held(pairings_hold, signed, "engine")
    assert "main journal was said to be standard, and is read as 0.010 under" in sentence


def test_nothing_is_asked_of_a_pairing_that_nobody_signed(db):
    assert held(pairings_hold, paired(), "engine") == []


def test_a_set_of_which_one_is_new_holds_the_area_of_the_others(db):
    shop = Shop(paired_pack(BOLTING))
    work = Held(shop)
    shop.tag_all(work.visit, "bolt", "nut")
    assert held(sets_renewed_together, work, "case") == []
    new_part(work, "bolt", "main 1")
    [(sentence, _)] = held(sets_renewed_together, work, "case")
    assert sentence.startswith("Main nut, main 1 is not new, but Main bolt, main 1 is: Main bolts with their nuts")
    assert held(sets_renewed_together, work, "cylinders") == []


class Held:
    """A visit whose route asks nothing about the set: the gate does."""

    def __init__(self, shop):
        self.shop, self.data = shop, paired_pack(BOLTING)
        self.visit = shop.receive()
