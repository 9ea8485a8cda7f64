"""An engine comes back years later, or an installation is opened again: nothing counts as fitted that was taken off."""

from dataclasses import replace

import pytest
from django.urls import reverse

from engines.catalogue.data import Line, Operation
from engines.inspection.models import Discrepancy
from engines.inspection.services import decide, raise_discrepancy, take_its_place
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.parts.errors import AlreadyFitted, Scrapped
from engines.parts.models import Fitment, Item
from engines.parts.queries import fitted_now
from engines.parts.services import fit_item, scrap_item
from engines.release.errors import Held
from engines.release.queries import blockers_of, situation_of
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from engines.visits.errors import ElsewhereByRecord
from engines.visits.models import Tagged, Tray
from engines.visits.services import Identity, close_visit
from shopfloor.ledger.queries import verify
from tests.making_packs import empty_case, page
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
SHAFT, HALF, GASKET = ("crankshaft", "engine"), ("case-half", "case"), ("gasket", "case joint")
DATA = Data("T2-90 invented manual", "3", "page 5-1")


def operation(code, stage, kind, *names, **given):
    return Operation(code=code, area="case", stage=stage, kind=kind, title=code, names=names, source=page("3-2"), **given)


def coming_back_pack():
    pack = empty_case(
        operation("tag", "teardown", "strip-and-tag", "crankshaft", "case-half"),
        operation("fit", "assembly", "install-item", "crankshaft", "case-half"),
        operation("seal", "assembly", "renew-always", "gasket", after=("fit",), hold_point=True),
    )
    gasket = Line(
        line="gasket", part_number="T2-190", name="Gasket", area="case", places=("case joint",), tracking="none", renew=True,
        source=page("2-1"),
    )  # fmt: skip
    return replace(pack, lines=(*pack.lines, gasket))


@pytest.fixture
def shop():
    return Shop(coming_back_pack())


def take_off(shop, visit, serial="CR-1", mark="H-1", **given):
    shop.enter(visit, "tag", spot=SHAFT, serial=serial, mark="", tray=f"A{visit.number}", as_found="worn", absent=False)
    half = {"serial": "", "mark": mark, "tray": f"A{visit.number}", "as_found": "worn", "absent": False}
    shop.enter(visit, "tag", spot=HALF, **half | given)


def fit(shop, visit, spot, code="fit", **given):
    shop.enter(visit, code, spot=spot, **{"new_identity": "", "evidence": "", **given})


def renew(shop, visit, lot="LOT-1"):
    fit(shop, visit, GASKET, "seal", new_identity=lot, evidence="C-1", destroyed="cut in two")


def to_assembly(shop, visit):
    area = shop.area(visit, "case")
    while area.stage != "assembly":
        if area.stage == "teardown":
            shop.sign(visit, "tag")
        area = shop.advance(visit, "case")


def assembled(shop, serial):
    """A visit whose engine was put together and left the shop."""
    visit = shop.receive(serial=serial)
    shop.advance(visit, "case")
    take_off(shop, visit)
    to_assembly(shop, visit)
    for spot in (SHAFT, HALF):
        fit(shop, visit, spot)
    shop.sign(visit, "fit")
    renew(shop, visit)
    shop.sign(visit, "seal")
    shop.accept(visit, "seal")
    return visit


def left(shop, visit):
    close_visit(visit=visit, by=shop.inspector, at=shop.later())
    Tray.objects.filter(visit=visit).update(emptied_at=shop.now)
    return visit


@pytest.fixture
def first(shop):
    return left(shop, assembled(shop, "T2-7"))


@pytest.fixture
def again(shop, first):
    visit = shop.receive(serial="T2-7")
    shop.advance(visit, "case")
    return visit


def open_now(visit):
    return {spot: each.item.identity for spot, each in fitted_now(visit.engine.item).items()}


def told(visit):
    return [each.words for each in Discrepancy.objects.filter(visit=visit).order_by("number")]


class TestSecondVisit:
    def test_parts_that_are_known_stay_the_same_items_and_are_off(self, shop, first, again):
        before = {each.pk for each in Item.objects.all()}
        take_off(shop, again)
        assert {each.pk for each in Item.objects.all()} == before
        assert {tag.item.identity for tag in Tagged.objects.filter(visit=again)} == {"CR-1", "H-1"}
        assert open_now(again) == {GASKET: "LOT-1"}
        span = Fitment.objects.get(line="crankshaft")
        assert (span.removed_reason, span.removed_by) == ("taken off at teardown", shop.mechanic)
        assert not told(again)
        assert not [fault for fault in verify() if "people." not in fault.sentence]

    def test_leaving_teardown_small_parts_are_off_as_well(self, shop, again):
        take_off(shop, again)
        shop.sign(again, "tag")
        shop.advance(again, "case")
        assert open_now(again) == {}

    def test_nothing_is_signed_as_fitted_that_was_not_fitted_again(self, shop, again):
        take_off(shop, again)
        to_assembly(shop, again)
        with pytest.raises(NotYet, match="Crankshaft, engine is not fitted"):
            shop.sign(again, "fit")
        fit(shop, again, SHAFT)
        fit(shop, again, HALF)
        shop.sign(again, "fit")
        with pytest.raises(NotYet, match="Gasket, case joint is not fitted"):
            shop.sign(again, "seal")
        renew(shop, again, "LOT-2")
        assert open_now(again) == {SHAFT: "CR-1", HALF: "H-1", GASKET: "LOT-2"}

    def test_another_part_than_the_one_that_left_is_brought_before_the_inspector(self, shop, again):
        take_off(shop, again, serial="CR-9", mark="H-9")
        assert open_now(again) == {GASKET: "LOT-1"}
        assert [words.split(", where by the record ")[1].split(" was fitted on")[0] for words in told(again)] == [
            "Crankshaft CR-1",
            "Case H-1",
        ]

    def test_a_part_that_is_not_there_is_off_too(self, shop, again):
        take_off(shop, again, mark="", tray="", absent=True)
        assert HALF not in open_now(again)
        assert told(again) == ["Case, case was not there: worn"]

    def test_scrap_that_came_back_is_told_and_never_fitted(self, shop, first, again):
        scrapped = Item.objects.get(serial="CR-1")
        shop.enter(again, "tag", spot=SHAFT, serial="CR-2", mark="", tray="A", as_found="new", absent=False)
        shop.enter(again, "tag", spot=HALF, serial="", mark="H-1", tray="A", as_found="new", absent=False)
        scrap_item(item=scrapped, reason="cracked", by=shop.inspector, at=shop.later())
        third = shop.receive(serial="T2-8")
        shop.advance(third, "case")
        take_off(shop, third, mark="H-8")
        assert [words.split(" which was scrapped")[0] for words in told(third)] == [
            "Crankshaft, engine: Crankshaft CR-1 was found,"
        ]
        found = Discrepancy.objects.get(visit=third)
        decide(discrepancy=found, kind=Kind.ACCEPT, data=DATA, words="seen", by=shop.inspector, at=shop.later())
        with pytest.raises(Held) as held:
            to_assembly(shop, third)
        assert [each.sentence for each in held.value.blockers] == [
            "Crankshaft at engine has no end yet: it was scrapped, and none has taken its place."
        ]
        given = {"root": third.engine.item, "line": "crankshaft", "place": "engine", "fitted_at": shop.now}
        with pytest.raises(Scrapped):
            fit_item(item=scrapped, **given, by=shop.mechanic, at=shop.now)

    def test_the_part_of_another_engine_is_refused_and_nothing_is_kept(self, shop, first):
        other = shop.receive(serial="T2-9")
        shop.advance(other, "case")
        with pytest.raises(ElsewhereByRecord, match=r"By the record Crankshaft CR-1 is fitted in .*T2-7"):
            take_off(shop, other)
        assert not Tagged.objects.filter(visit=other).exists()

    def test_a_part_that_lies_in_another_open_visit_is_refused(self, shop, again):
        take_off(shop, again)
        other = shop.receive(serial="T2-9")
        shop.advance(other, "case")
        with pytest.raises(ElsewhereByRecord, match=f"tagged at engine of visit {again.number}"):
            take_off(shop, other)

    def test_the_page_says_what_the_record_has_there(self, shop, again, client):
        client.force_login(shop.mechanic)
        page_shown = client.get(reverse("benches:operation", args=[shop.operation(again, "tag").pk])).content.decode()
        assert "on record: CR-1" in page_shown
        assert "on record: H-1" in page_shown


class TestOpenedAgain:
    @pytest.fixture
    def visit(self, shop):
        visit = assembled(shop, "T2-7")
        reopen(operation=shop.operation(visit, "fit"), reason="the run failed", by=shop.inspector, at=shop.later())
        return visit

    def test_every_part_is_asked_for_anew(self, shop, visit):
        with pytest.raises(NotYet, match=r"Crankshaft, engine is not fitted.*\n?.*Case, case is not fitted"):
            shop.sign(visit, "fit")
        with pytest.raises(NotYet):
            shop.sign(visit, "seal")

    def test_what_was_taken_off_and_fitted_again_has_two_spans(self, shop, visit):
        fit(shop, visit, SHAFT)
        spans = Fitment.objects.filter(line="crankshaft").order_by("fitted_at")
        assert [each.removed_reason for each in spans] == ["taken off for “fit”, which was done again", ""]
        assert spans[0].removed_at == spans[1].fitted_at

    def test_what_was_not_disturbed_keeps_its_span_and_says_so(self, shop, visit):
        fit(shop, visit, SHAFT, undisturbed=True)
        assert Fitment.objects.get(line="crankshaft").removed_at is None
        assert shop.operation(visit, "fit").entries.latest("entered_at").content["undisturbed"].startswith("not disturbed since")

    def test_undisturbed_and_new_exclude_each_other(self, shop, visit):
        with pytest.raises(StepRefused, match="Either it was not disturbed, or a new part went in"):
            fit(shop, visit, SHAFT, undisturbed=True, new_identity="CR-2", evidence="C-2")

    def test_nothing_is_undisturbed_that_gave_way_to_another_part(self, shop, visit):
        replaced(shop, visit)
        with pytest.raises(StepRefused, match="not on record as fitted: fit it"):
            fit(shop, visit, SHAFT, undisturbed=True)
        fit(shop, visit, SHAFT)
        assert open_now(visit)[SHAFT] == "CR-2"

    def test_a_gasket_that_was_disturbed_is_renewed_with_the_old_one_unusable(self, shop, visit):
        fit(shop, visit, SHAFT, undisturbed=True)
        fit(shop, visit, HALF)
        shop.sign(visit, "fit")
        with pytest.raises(StepRefused, match="Say how the old part was made unusable"):
            fit(shop, visit, GASKET, "seal", new_identity="LOT-2", evidence="C-2", destroyed="")
        with pytest.raises(StepRefused, match="Say how the old part was made unusable"):
            fit(shop, visit, GASKET, "seal", destroyed="cut", undisturbed=True)
        renew(shop, visit, "LOT-2")
        assert open_now(visit)[GASKET] == "LOT-2"
        assert [each.item.mark for each in Fitment.objects.filter(line="gasket").order_by("fitted_at")] == ["LOT-1", "LOT-2"]


def replaced(shop, visit, kind=Kind.REPLACE):
    """The shaft gives way to another by decision."""
    given = {"area": "case", "line": "crankshaft", "place": "engine", "words": "cracked at the flange"}
    found = raise_discrepancy(visit=visit, **given, by=shop.mechanic, at=shop.later())
    made = decide(discrepancy=found, kind=kind, data=DATA, words="as the data say", by=shop.inspector, at=shop.later())
    identity = Identity(serial="CR-2")
    take_its_place(disposition=made, identity=identity, words="from stores", by=shop.mechanic, at=shop.later())


class TestGate:
    def held(self, shop, visit):
        return [each.sentence for each in blockers_of(situation_of(shop.area(visit, "case")))]

    def test_what_is_signed_and_there_holds_nothing(self, shop):
        assert self.held(shop, assembled(shop, "T2-7")) == []

    @pytest.mark.parametrize("kind", [Kind.REPLACE, Kind.SCRAP])
    def test_a_part_replaced_after_its_installation_was_signed_must_be_fitted(self, shop, kind):
        visit = assembled(shop, "T2-7")
        replaced(shop, visit, kind)
        assert self.held(shop, visit) == ["Crankshaft at engine was fitted, and is not there any more: open “fit” again."]
        reopen(operation=shop.operation(visit, "fit"), reason="replaced", by=shop.inspector, at=shop.later())
        for spot in (SHAFT, HALF):
            fit(shop, visit, spot)
        shop.sign(visit, "fit")
        assert open_now(visit)[SHAFT] == "CR-2"

    def test_a_part_that_belongs_elsewhere_is_named(self, shop):
        visit = assembled(shop, "T2-7")
        stray = Item.objects.create(
            part_number="T2-100", name="Crankshaft", serial="CR-5", tracking="serial", known_at=shop.now, added_by=shop.mechanic
        )
        Fitment.objects.filter(line="crankshaft").update(
            removed_at=shop.later(), removed_known_at=shop.now, removed_by=shop.mechanic, removed_reason="moved"
        )
        fit_item(
            item=stray,
            root=visit.engine.item,
            line="crankshaft",
            place="engine",
            fitted_at=shop.now,
            by=shop.mechanic,
            at=shop.now,
        )
        assert self.held(shop, visit) == [
            "Crankshaft at engine is Crankshaft CR-5, but Crankshaft CR-1 has taken its place: open “fit” again."
        ]
        with pytest.raises(AlreadyFitted):
            fit_item(item=stray, root=visit.engine.item, line="x", place="y", fitted_at=shop.now, by=shop.mechanic, at=shop.now)
