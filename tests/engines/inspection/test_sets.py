"""Parts renewed only together: where one came new, every one must have, with its evidence. All invented."""

import pytest

from engines.catalogue.data import RenewedSet
from engines.inspection.facts import inspection_of
from engines.traveler.errors import NotYet
from engines.visits.services import exchange_parts
from tests.making_packs import page
from tests.making_pairings import MAINS, new_part, paired_pack
from tests.making_steps_s3 import Errand

BOLTING = RenewedSet(code="bolting", name="Main bolts with their nuts", lines=("bolt", "nut"), source=page("5-2"))
JOINT = RenewedSet(code="case-joint", name="Case and its gasket", lines=("case-half", "gasket"), source=page("5-1"))
WHY = "Main bolts with their nuts are renewed only together (T2-90 invented manual, revision 3, page 5-2)."


def looked_at(*sets):
    work = Errand("permitted-pairing", {"sets": [each.code for each in sets]}, pack=paired_pack(*sets))
    work.shop.tag_all(work.visit, "bolt", "nut", "case-half")
    return work


@pytest.mark.django_db
def test_nothing_new_asks_for_nothing():
    work = looked_at(BOLTING)
    assert work.question() == ""
    assert work.sign().is_complete


@pytest.mark.django_db
def test_one_new_part_asks_for_the_others_of_its_place_by_name(client):
    work = looked_at(BOLTING)
    new_part(work, "bolt", "main 1")
    assert work.missing() == [f"Main nut, main 1 is not new, but Main bolt, main 1 is: {WHY}"]
    with pytest.raises(NotYet, match="Main nut, main 1 is not new"):
        work.sign()
    shown = work.page(client)
    assert "Main bolt, main 1: new, Main bolt new-bolt-main 1" in shown
    assert "Main nut, main 2: the one that was there" in shown
    new_part(work, "nut", "main 1")
    assert work.sign().is_complete
    assert "Main nut, main 1: new, Main nut new-nut-main 1" in work.operation.signatures.get().shown


@pytest.mark.django_db
def test_a_new_part_without_evidence_does_not_make_the_set_whole():
    work = looked_at(BOLTING)
    new_part(work, "bolt", "main 1")
    new_part(work, "nut", "main 1", evidence="")
    assert work.missing() == ["Main nut, main 1: Main nut new-nut-main 1 has no evidence of eligibility. Book its certificate."]


@pytest.mark.django_db
def test_what_changes_after_the_page_was_opened_is_not_signed_blindly():
    work = looked_at(BOLTING)
    before = work.shop.seen(work.visit, "asked")
    for line in ("bolt", "nut"):
        new_part(work, line, "main 2")
    assert work.shop.seen(work.visit, "asked") != before


@pytest.mark.django_db
def test_what_is_always_renewed_calls_for_no_part_that_is_not():
    work = looked_at(JOINT)
    new_part(work, "gasket", "case joint")
    assert work.missing() == []
    new_part(work, "case-half", "case")
    assert work.missing() == []


@pytest.mark.django_db
def test_a_new_part_calls_for_what_is_always_renewed():
    work = looked_at(JOINT)
    new_part(work, "case-half", "case")
    [sentence] = work.missing()
    assert sentence.startswith("Gasket, case joint is not new, but Case, case is: Case and its gasket are renewed only together")


@pytest.mark.django_db
def test_a_part_fitted_on_an_earlier_visit_is_not_new():
    work = looked_at(JOINT)
    new_part(work, "gasket", "case joint")
    work.visit.received_at = work.shop.later()
    assert [[each.new for each in found.members] for found in inspection_of(work.visit).sets] == [[None, None]]


@pytest.mark.django_db
def test_parts_that_only_change_their_positions_are_not_new():
    work = looked_at(BOLTING)
    places = {"line": "bolt", "places": tuple(MAINS)}
    exchange_parts(visit=work.visit, **places, words="as decided", by=work.shop.mechanic, at=work.shop.later())
    assert work.missing() == []


@pytest.mark.django_db
def test_places_that_differ_make_one_set():
    both = RenewedSet(code="shells", name="Shells and case", lines=("shell", "case-half"), source=page("5-3"))
    work = looked_at(both)
    work.shop.tag_all(work.visit, "shell")
    new_part(work, "shell", "main 1")
    assert [each.split(" is not new")[0] for each in work.missing()] == ["Bearing shell, main 2", "Case, case"]


@pytest.mark.django_db
def test_three_queries_however_many_sets(django_assert_num_queries):
    work = looked_at(BOLTING, JOINT)
    for line in ("bolt", "nut"):
        for place in MAINS:
            new_part(work, line, place)
    now = inspection_of(work.visit)
    assert now.tagged
    with django_assert_num_queries(3):  # fitted, what came with the engine, evidence
        assert len(now.sets) == 3
