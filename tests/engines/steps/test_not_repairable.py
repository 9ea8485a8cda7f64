"""What may not be used again is scrapped, made unusable before a second person, and renewed. Right, wrong, cut short, disputed.

That a scrapped part is mutilated so that it can never be fitted again: FAA AC 21-38, from memory. That another person sees it
done is common practice, no source. All else is invented.
"""

from dataclasses import replace
from io import BytesIO

import pytest
from django.urls import reverse
from uuid_utils.compat import uuid7

from engines.inspection.errors import Scrapped as ReadingRefused
from engines.packs.reading import PackMistakes
from engines.parts.errors import Scrapped
from engines.parts.models import Certificate, Item
from engines.parts.queries import fitted_now
from engines.parts.services import add_item, fit_item, scrap_item
from engines.steps.scrapping import NEW, SCRAP, UNUSABLE, USABLE, WITNESS
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from engines.visits.errors import FieldRefused
from engines.visits.services import exchange_parts, tag_replacement
from shopfloor.ledger.models import LedgerEvent
from tests.making_packs import running_pack
from tests.making_steps_s3 import Errand, load
from tests.permission_rows.benches import picture

SPOT = ("crankshaft", "engine")
WHERE = "Crankshaft, engine"
HOW = "cut through both webs"


def photo():
    file = BytesIO(picture("grey"))
    file.name = "scrap.jpg"
    return file


class Scrapping(Errand):
    """Mechanic and another mechanic; each act with what it asks unless told otherwise."""

    def __init__(self, **fields):
        super().__init__("not-repairable", {}, names=("crankshaft",), **fields)
        self.shop.tag(self.visit, *SPOT, mark="K-1")
        self.other = self.shop.hire()
        self.old = Item.objects.get(serial="K-1")

    def scrap(self, by=None, **given):
        return self.answer(f"{SCRAP}: {WHERE}", by, **{"identity": "K-1", "how": HOW, "photo": photo(), **given})

    def witness(self, answer=UNUSABLE, by=None):
        return self.answer(f"{WITNESS}: {WHERE}", by or self.other, answer=answer)

    def renew(self, by=None, **given):
        return self.answer(f"{NEW}: {WHERE}", by, **{"identity": "K-2", "evidence": "C-2", **given})

    def now(self):
        return Item.objects.get(pk=self.old.pk)


@pytest.fixture
def work(db):
    return Scrapping()


def test_scrapped_seen_by_another_and_renewed_it_is_signed(work, client):
    assert work.scrap()["how"] == HOW
    assert work.missing() == [f"{WHERE}: another person has yet to see that Crankshaft K-1 is unusable."]
    work.witness()
    assert work.renew()["new"] == "Crankshaft K-2"
    assert work.sign().is_complete
    fitted = fitted_now(work.visit.engine.item)[SPOT].item
    assert (fitted.serial, fitted.origin) == ("K-2", "booked in")
    assert Certificate.objects.get(item=fitted).number == "C-2"
    shown = work.page(client)
    assert f"scrapped and made unusable</b>, {HOW}" in shown
    assert "in its place <b>Crankshaft K-2</b>, part number T2-100, evidence C-2" in shown
    printed = work.paper()
    assert f"{HOW}<small>photo, SHA-256" in printed
    assert UNUSABLE in printed


def test_the_scrapped_part_goes_nowhere_again(work):
    work.scrap()
    scrapped = work.now()
    assert scrapped.scrapped_by == work.shop.mechanic
    assert scrapped.scrapped_reason == f"not repairable, T2-90 invented manual, revision 3, page 8-1: {HOW}"
    assert LedgerEvent.objects.filter(kind="item.scrapped").count() == 1
    root, by, at = work.visit.engine.item, work.shop.mechanic, work.shop.later()
    with pytest.raises(Scrapped, match="A scrapped part is never fitted again"):
        fit_item(item=work.old, root=root, line="crankshaft", place="engine", fitted_at=at, by=by, at=at)
    with pytest.raises(ReadingRefused):
        work.shop.read(work.visit, "crank-main", "main 1", "2.1245")


def test_a_part_scrapped_in_stores_takes_no_place(work):
    by, at = work.shop.mechanic, work.shop.later()
    stored = add_item(part_number="T2-100", name="Crankshaft", serial="K-9", tracking="serial", origin="booked in", by=by, at=at)
    scrapped = scrap_item(item=stored, reason="cracked", by=by, at=at)
    with pytest.raises(FieldRefused, match="Crankshaft K-9 was scrapped"):
        tag_replacement(visit=work.visit, line=SPOT[0], place=SPOT[1], item=scrapped, words="by mistake", by=by, at=at)


def test_one_that_is_still_fitted_is_taken_off_with_it(work):
    root, by, at = work.visit.engine.item, work.shop.mechanic, work.shop.later()
    fit_item(item=work.old, root=root, line=SPOT[0], place=SPOT[1], fitted_at=at, by=by, at=at)
    work.scrap()
    assert not fitted_now(root)
    assert work.now().scrapped_at


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"identity": "K-7"}, "Crankshaft K-1 is to be scrapped here, and you read “K-7”"),
        ({"identity": ""}, "Read it again: spare the part in hand"),
        ({"how": " "}, "Say how it was made unusable"),
        ({"photo": None}, "Take a photo of the part"),
    ],
)
def test_no_part_is_scrapped_by_mistake_or_without_proof(work, given, said):
    with pytest.raises(StepRefused, match=said):
        work.scrap(**given)
    assert not work.now().scrapped_at
    assert not work.operation.entries.exists()


def test_the_same_person_is_no_second_one_whatever_their_role(work):
    work.scrap(by=work.shop.inspector)
    with pytest.raises(StepRefused, match="You made it unusable yourself"):
        work.witness(by=work.shop.inspector)
    assert work.witness(by=work.shop.mechanic)["answer"] == UNUSABLE


def test_the_new_part_waits_for_the_second_person(work, client):
    work.scrap()
    with pytest.raises(StepRefused, match="Nothing is left to be entered"):
        work.renew()
    with pytest.raises(StepRefused, match="What is asked now is “witness: Crankshaft, engine”"):
        work.renew(by=work.other)
    assert "Keep it" not in work.page(client)
    assert not fitted_now(work.visit.engine.item)


def test_interrupted_it_says_what_is_left_at_each_turn(work):
    assert work.missing() == [f"{WHERE}: Crankshaft K-1 is not made unusable yet."]
    with pytest.raises(NotYet):
        work.sign()
    work.scrap()
    work.witness()
    with pytest.raises(NotYet, match="no new part has taken the place of Crankshaft K-1 yet"):
        work.sign()


def test_disputed_it_is_made_unusable_again_and_looked_at_again(work):
    work.scrap(how="scratched")
    work.witness(USABLE)
    assert work.missing() == [f"{WHERE}: Crankshaft K-1 could still be fitted, says who looked at it. Make it unusable."]
    work.scrap()
    work.witness()
    work.renew()
    assert work.sign().is_complete
    assert LedgerEvent.objects.filter(kind="item.scrapped").count() == 1


def test_who_only_looked_does_not_sign_for_the_work(work):
    work.scrap()
    work.witness()
    work.renew()
    with pytest.raises(NotYet, match="You only saw it done"):
        work.shop.sign(work.visit, "asked", by=work.other)
    assert work.sign().is_complete


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"identity": ""}, "A new part needs its serial or mark"),
        ({"evidence": " "}, "the number of its evidence"),
        ({"identity": "K-1"}, "“K-1” is the part that was scrapped"),
    ],
)
def test_nothing_takes_its_place_without_identity_and_evidence(work, given, said):
    work.scrap()
    work.witness()
    with pytest.raises(StepRefused, match=said):
        work.renew(**given)
    assert not fitted_now(work.visit.engine.item)


def test_a_part_that_took_the_place_before_is_read_and_proven(work):
    by, at = work.shop.mechanic, work.shop.later()
    came = add_item(part_number="T2-100", name="Crankshaft", serial="K-3", tracking="serial", origin="booked in", by=by, at=at)
    tag_replacement(visit=work.visit, line=SPOT[0], place=SPOT[1], item=came, words="as decided", by=by, at=at)
    work.scrap()
    work.witness()
    with pytest.raises(StepRefused, match="Crankshaft K-3 has taken the place already, and you read “K-2”"):
        work.renew()
    work.renew(identity="K-3")
    assert work.now().scrapped_at
    assert fitted_now(work.visit.engine.item)[SPOT].item == came
    assert Certificate.objects.get(item=came).number == "C-2"


def test_opened_again_the_new_part_is_never_taken_for_the_old_one(work):
    work.scrap()
    work.witness()
    work.renew()
    work.sign()
    reopen(operation=work.operation, reason="no photo of the second web", by=work.shop.inspector, at=work.shop.later())
    with pytest.raises(StepRefused, match="Crankshaft K-1 is to be scrapped here, and you read “K-2”"):
        work.scrap(identity="K-2")
    work.scrap()
    work.witness()
    work.renew()
    assert work.sign().is_complete
    assert not Item.objects.get(serial="K-2").scrapped_at


@pytest.mark.django_db
def test_of_parts_that_changed_their_positions_the_one_there_now_is_scrapped():
    work = Errand("not-repairable", {}, names=("piston",))
    work.shop.tag_all(work.visit, "piston")
    places = ("cylinder 1", "cylinder 2")
    exchange_parts(visit=work.visit, line="piston", places=places, words="x", by=work.shop.mechanic, at=work.shop.later())
    assert work.missing() == [
        "Piston, cylinder 1: Piston piston-cylinder 2 is not made unusable yet.",
        "Piston, cylinder 2: Piston piston-cylinder 1 is not made unusable yet.",
    ]
    assert work.question() == f"{SCRAP}: Piston, cylinder 1"


@pytest.mark.django_db
def test_before_assembly_the_new_part_takes_the_place_and_is_not_fitted_yet():
    work = Scrapping(area="case", stage="receiving")
    work.scrap()
    work.witness()
    work.renew()
    assert not fitted_now(work.visit.engine.item)
    assert work.visit.tagged.get(followed_by=None).item.serial == "K-2"
    assert work.sign().is_complete


@pytest.mark.django_db
def test_a_part_that_nobody_tagged_is_told():
    work = Errand("not-repairable", {}, names=("crankshaft",))
    assert work.missing() == [f"{WHERE} is not tagged: nobody knows which part is meant."]
    assert work.question() == ""


def test_by_the_pages_two_persons_in_turn(work, client):
    client.force_login(work.shop.mechanic)
    enter = reverse("benches:enter", args=[work.operation.pk])

    def post(**given):
        return client.post(enter, {**given, "receipt_key": str(uuid7())}).status_code

    given = {"asked": f"{SCRAP}: {WHERE}", "identity": "K-1", "how": HOW, "photo": photo()}
    assert post(**given) == 302
    page = work.page(client)
    assert "another person has yet to see" in page
    client.force_login(work.other)
    page = client.get(reverse("benches:operation", args=[work.operation.pk])).content.decode()
    assert "you have Crankshaft K-1 before you" in page
    assert "checked" not in page
    assert post(asked=f"{WITNESS}: {WHERE}") == 422
    assert post(asked=f"{WITNESS}: {WHERE}", answer=UNUSABLE) == 302
    assert work.operation.entries.count() == 2


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"names": ("gasket",)}, "“gasket” is not told apart, so nobody could say which one is scrapped: use renew-always"),
        ({"names": ()}, "names nothing"),
        ({"names": ("crankshaft",), "details": {"colour": "red"}}, "knows no details “colour”"),
    ],
)
def test_data_that_cannot_be_worked_by_are_refused(fields, said):
    with pytest.raises(PackMistakes, match=said):
        load("not-repairable", **{"details": {}, **fields})


def test_a_sound_operation_loads():
    load("not-repairable", {}, pack=replace(running_pack(), revision="2"), names=("crankshaft",))
