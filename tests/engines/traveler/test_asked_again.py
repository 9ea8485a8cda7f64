"""A part that was reworked after its crack test is tested anew; what the test says is about the part as it is now."""

from dataclasses import replace
from functools import partial

import pytest

from engines.catalogue.data import Operation
from engines.inspection.models import Discrepancy
from engines.inspection.services import carry_out, decide, raise_discrepancy, take_its_place
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.release.errors import Held
from engines.traveler.errors import NotYet
from engines.traveler.models import Reopening
from engines.traveler.services import reopen
from engines.traveler.work import still_missing, work_on
from engines.visits.services import Identity, exchange_parts
from tests.making_crack_tests import ALL, CLEANED, DETAILS, FIELD, KIND, LEFT, NOTHING, make_meters, tell
from tests.making_packs import empty_case, page, small_pack, with_operations
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
ASKED = {**DETAILS, "again_after_rework": "yes"}
NEXT = ({**FIELD, "shown": "46"}, NOTHING, {**LEFT, "shown": "2"}, CLEANED)
DATA = Data("T2-90 invented manual", "3", "page 4-4")
CODE, ONE = "cracks", "cylinder 1"
cracks = partial(Operation, code=CODE, kind=KIND, title="Tested for cracks", details=ASKED, source=page("4-5"))
of_pistons = cracks(area="cylinders", stage="receiving", names=("piston",))
of_crankshaft = cracks(area="case", stage="inspection", names=("crankshaft",))


class WithTest:
    """A visit whose parts stand tested and signed."""

    def __init__(self, data, *, stage="", answers=(*ALL, *NEXT)):
        self.shop = Shop(data)
        make_meters(self.shop)
        self.visit = self.shop.receive()
        self.to(stage) if stage else self.shop.tag_all(self.visit, "cylinder", "piston")
        self.tell(*answers)
        self.shop.sign(self.visit, CODE)

    @property
    def operation(self):
        return self.shop.operation(self.visit, CODE)

    def to(self, stage):
        area = self.shop.area(self.visit, "case")
        while area.stage != stage:
            if area.stage == "teardown":
                self.shop.tag_all(self.visit, "crankshaft", "case-half")
            area = self.shop.advance(self.visit, "case")

    def tell(self, *answers):
        for answer in answers:
            tell(self.shop, self.operation, answer)

    def missing(self):
        return still_missing(self.operation, work_on(self.visit, self.operation, self.shop.now))

    def found(self, area, line, place):
        given = {"area": area, "line": line, "place": place, "words": "a nick"}
        return raise_discrepancy(visit=self.visit, **given, by=self.shop.mechanic, at=self.shop.later())

    def decided(self, found, kind=Kind.REWORK):
        return decide(discrepancy=found, kind=kind, data=DATA, words="blend it", by=self.shop.inspector, at=self.shop.later())

    def carried_out(self, found):
        made = self.decided(found)
        return carry_out(disposition=made, words="blended", by=self.shop.mechanic, at=self.shop.later())


@pytest.fixture
def pistons():
    return WithTest(with_operations(small_pack(), of_pistons))


def test_a_rework_that_was_carried_out_asks_for_the_test_anew_by_name(pistons):
    pistons.carried_out(pistons.found("cylinders", "piston", ONE))
    assert pistons.operation.signed_at is None
    assert Reopening.objects.get().reason.startswith("After a rework: Piston, cylinder 1: what was seen of it counts no more")
    pistons.tell(*ALL, *NEXT)
    assert pistons.shop.sign(pistons.visit, CODE).is_complete


def test_what_is_only_decided_asks_for_nothing_yet(pistons):
    pistons.decided(pistons.found("cylinders", "piston", ONE))
    assert pistons.operation.is_complete


def test_a_reading_after_a_rework_asks_for_it_anew(pistons):
    shop, visit = pistons.shop, pistons.visit
    shop.read(visit, "skirt-diameter", ONE, "4.3500")
    pistons.decided(Discrepancy.objects.get())
    assert pistons.operation.is_complete
    shop.read(visit, "skirt-diameter", ONE, "4.3635", condition="after rework")
    assert pistons.operation.signed_at is None


def test_tested_anew_it_is_not_asked_for_at_every_further_reading(pistons):
    shop, visit = pistons.shop, pistons.visit
    shop.read(visit, "skirt-diameter", ONE, "4.3500")
    pistons.decided(Discrepancy.objects.get())
    shop.read(visit, "skirt-diameter", ONE, "4.3635", condition="after rework")
    pistons.tell(*ALL, *NEXT)
    shop.sign(visit, CODE)
    shop.read(visit, "skirt-diameter", ONE, "4.3636", condition="after rework")
    assert pistons.operation.is_complete


def test_tested_between_the_decision_and_the_reading_it_stands(pistons):
    """Ground, tested, then measured."""
    shop, visit = pistons.shop, pistons.visit
    shop.read(visit, "skirt-diameter", ONE, "4.3500")
    pistons.decided(Discrepancy.objects.get())
    reopen(operation=pistons.operation, reason="ground", by=shop.inspector, at=shop.later())
    pistons.tell(*ALL, *NEXT)
    shop.sign(visit, CODE)
    shop.read(visit, "skirt-diameter", ONE, "4.3635", condition="after rework")
    assert pistons.operation.is_complete


def test_a_rework_of_another_part_leaves_it(pistons):
    pistons.carried_out(pistons.found("cylinders", "cylinder", ONE))
    assert pistons.operation.is_complete


def test_a_part_that_took_the_place_of_the_tested_one_is_tested(pistons):
    made = pistons.decided(pistons.found("cylinders", "piston", ONE), Kind.REPLACE)
    shop = pistons.shop
    take_its_place(disposition=made, identity=Identity(mark="N-1"), words="used one", by=shop.mechanic, at=shop.later())
    assert pistons.missing()[0].startswith("Piston, cylinder 1: ")
    assert pistons.operation.signed_at is None


def test_two_tested_parts_that_change_their_places_stay_tested(pistons):
    places = {"line": "piston", "places": (ONE, "cylinder 2")}
    exchange_parts(visit=pistons.visit, **places, words="to balance", by=pistons.shop.inspector, at=pistons.shop.later())
    assert pistons.missing() == []


def test_data_that_do_not_ask_for_it_leave_it_signed():
    tested = WithTest(with_operations(small_pack(), replace(of_pistons, details=DETAILS)))
    tested.carried_out(tested.found("cylinders", "piston", ONE))
    assert tested.operation.is_complete


def test_while_it_is_open_what_was_seen_before_the_rework_does_not_count():
    tested = WithTest(with_operations(small_pack(), of_pistons))
    tested.carried_out(tested.found("cylinders", "piston", ONE))
    tested.tell(*ALL)
    tested.carried_out(tested.found("cylinders", "piston", ONE))
    assert tested.missing()[0] == (
        "Piston, cylinder 1: what was seen of it counts no more, it is tested anew: field at the part is not checked."
    )
    with pytest.raises(NotYet):
        tested.shop.sign(tested.visit, CODE)


class TestInRepair:
    @pytest.fixture
    def ground(self):
        """A crankshaft that was ground after its test, in repair."""
        look = Operation(code="look", area="case", stage="inspection", kind="sign-off", title="Seen", source=page("4-6"))
        tested = WithTest(empty_case(of_crankshaft, replace(look, after=(CODE,))), stage="inspection", answers=ALL)
        tested.shop.sign(tested.visit, "look")
        tested.to("repair")
        tested.carried_out(tested.found("case", "crankshaft", "engine"))
        return tested

    def test_the_area_does_not_leave_repair_before_it_is_tested_again(self, ground):
        with pytest.raises(Held) as held:
            ground.to("assembly")
        assert [each.sentence for each in held.value.blockers] == ["“Tested for cracks” was opened again and is not signed."]
        ground.tell(*ALL)
        ground.shop.sign(ground.visit, CODE)
        ground.to("assembly")

    def test_what_was_signed_after_the_first_test_stays_as_it_was(self, ground):
        assert ground.shop.operation(ground.visit, "look").is_complete

    def test_in_assembly_nobody_tests(self, ground):
        ground.tell(*ALL)
        ground.shop.sign(ground.visit, CODE)
        ground.to("assembly")
        ground.carried_out(ground.found("case", "crankshaft", "engine"))
        with pytest.raises(NotYet, match="Case and crankshaft stands in assembly, this belongs to inspection"):
            ground.tell(ALL[0])
