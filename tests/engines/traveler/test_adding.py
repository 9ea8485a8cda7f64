"""An operation is added to a visit: asked for with a reason, approved by another person, and then worked like any other."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from django.db import IntegrityError, transaction

from engines.catalogue.queries import data_of
from engines.papers import build_record, traveler
from engines.release.errors import Held
from engines.release.queries import blockers_of, release_blockers, situation_of, whole_engine
from engines.release.statement import data_used
from engines.traveler.errors import NotAuthorised, NotInTheData, NotYet, OperationMistaken
from engines.traveler.models import Authorised, Operation
from engines.traveler.services import add_operation, approve_added, plan_due, refuse_added, reopen
from engines.traveler.work import waits_for
from engines.visits.errors import AdditionDecided, Closed, FieldRefused, OwnAddition, StagePassed
from engines.visits.models import AddedOperation, Visit
from engines.visits.route import data_for
from engines.visits.services import add_reason, close_visit
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_authorisations import entrust
from tests.making_packs import MANUAL, running_pack, small_pack
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
LETTER = {"document": "Maker's letter (invented)", "revision": "1", "page": "sheet 2"}
CITED = {"document": MANUAL[0], "revision": MANUAL[1], "page": "page 4-1"}


def staffed(data=None):
    """A shop in which a manager and a second inspector may approve data too."""
    shop = Shop(data)
    entrust(shop.manager, shop.second, whats=[Authorised.DATA_APPROVAL], by=shop.inspector)
    return shop


@pytest.fixture
def shop():
    return staffed()


@pytest.fixture
def visit(shop):
    return shop.receive()


def ask(shop, visit, *, by=None, from_data=False, reason="a stud was found bent", **given):
    wanted = {"area": "case", "stage": "receiving", "kind": "sign-off", "title": "Look at the studs again"} | LETTER | given
    return add_operation(visit=visit, given=wanted, from_data=from_data, reason=reason, by=by or shop.inspector, at=shop.later())


def add(shop, visit, **given):
    """Asked for by an inspector and approved by the manager."""
    added = ask(shop, visit, **given)
    return approve_added(added=added, by=shop.manager, at=shop.later())[0]


def held(shop, visit):
    return [each.sentence for each in blockers_of(situation_of(shop.area(visit, "case")))]


def unfaulted():
    return [fault for fault in verify() if "people." not in fault.sentence] == []


def fresh(visit):
    return Visit.objects.select_related("pack__model", "engine__item", "engine__model").get(pk=visit.pk)


def test_what_is_approved_is_worked_and_signed_like_the_rest(shop, visit):
    operation = add(shop, visit, after=["receive-case"], hold_point=True)
    assert (operation.code, operation.order) == ("added-1", len(data_of(visit.pack).operations) + 1)
    with pytest.raises(NotYet, match="“Identity and papers” must be complete first"):
        shop.sign(visit, "added-1")
    shop.sign(visit, "receive-case")
    assert held(shop, visit) == ["“Look at the studs again” is not signed."]
    with pytest.raises(Held):
        shop.advance(visit, "case")
    shop.sign(visit, "added-1")
    shop.accept(visit, "added-1")
    assert shop.advance(visit, "case").stage == "teardown"
    assert unfaulted()


def test_the_pinned_data_stay_as_they_are_and_another_visit_has_nothing_of_it(shop, visit):
    before, content = data_of(visit.pack), visit.pack.content
    add(shop, visit)
    other = shop.receive()
    assert data_for(fresh(visit)).operations[:-1] == before.operations
    assert data_for(other) is before is data_of(visit.pack)
    assert fresh(visit).pack.content == content
    assert not Operation.objects.filter(area__visit=other, code="added-1")


def test_the_signer_sees_why_it_was_added(shop, visit):
    add(shop, visit)
    shop.sign(visit, "added-1")
    shown = shop.operation(visit, "added-1").signatures.get().shown
    assert '"added":{"from_data":false,"reason":"a stud was found bent"}' in shown
    assert "Maker's letter (invented)" in shown
    shop.sign(visit, "receive-case")
    assert '"added"' not in shop.operation(visit, "receive-case").signatures.get().shown


class TestUntilItIsApproved:
    def test_nobody_can_do_it_and_the_area_is_held_by_its_name(self, shop, visit):
        shop.sign(visit, "receive-case")
        added = ask(shop, visit)
        assert not Operation.objects.filter(area__visit=visit, code=added.code)
        assert held(shop, visit) == ["“Look at the studs again” was added and waits for another authorised person to approve it."]
        with pytest.raises(Held):
            shop.advance(visit, "case")
        shop.sign(visit, "receive-cylinders")
        assert shop.advance(visit, "cylinders").stage == "teardown"

    def test_who_asked_for_it_does_not_approve_it(self, shop, visit):
        added = ask(shop, visit)
        with pytest.raises(OwnAddition):
            approve_added(added=added, by=shop.inspector, at=shop.later())
        assert AddedOperation.objects.get().approved is None
        assert fresh(visit).added == []

    def test_nor_does_anybody_whom_the_roster_does_not_let(self, shop, visit):
        added = ask(shop, visit)
        with pytest.raises(NotAuthorised, match="You have no authorisation for approving the data of T2-90 engines"):
            approve_added(added=added, by=shop.hire(Role.INSPECTOR), at=shop.later())
        assert fresh(visit).added == []

    def test_nor_does_the_database_let_that_pass(self, shop, visit):
        added = ask(shop, visit)
        forged = {"approved": True, "decided_by": shop.inspector, "decided_at": shop.later()}
        with pytest.raises(IntegrityError), transaction.atomic():
            AddedOperation.objects.filter(pk=added.pk).update(**forged)

    def test_it_is_decided_once(self, shop, visit):
        added = ask(shop, visit)
        approve_added(added=added, by=shop.second, at=shop.later())
        with pytest.raises(AdditionDecided):
            approve_added(added=added, by=shop.manager, at=shop.later())
        with pytest.raises(AdditionDecided):
            refuse_added(added=added, words="no", by=shop.manager, at=shop.later())
        assert fresh(visit).added == [str(added.pk)]

    def test_refused_it_holds_nothing_and_stays_on_record(self, shop, visit):
        shop.sign(visit, "receive-case")
        refused = refuse_added(added=ask(shop, visit), words="the stud is sound", by=shop.second, at=shop.later())
        assert (refused.approved, refused.decided_words) == (False, "the stud is sound")
        assert shop.advance(visit, "case").stage == "teardown"
        kinds = list(LedgerEvent.objects.order_by("sequence").values_list("kind", flat=True))
        assert (kinds.count("addition.asked"), kinds.count("addition.decided"), kinds.count("visit.operation-added")) == (1, 1, 0)
        assert unfaulted()

    def test_a_refusal_says_why(self, shop, visit):
        with pytest.raises(FieldRefused, match="Say why it is not to be done"):
            refuse_added(added=ask(shop, visit), words="  ", by=shop.second, at=shop.later())

    def test_what_waits_too_long_comes_too_late(self, shop, visit):
        added = ask(shop, visit, stage="teardown")
        shop.sign(visit, "receive-case")
        shop.advance(visit, "case")
        area = shop.area(visit, "case")
        assert [each.about for each in blockers_of(situation_of(area))].count("addition") == 1
        type(area).objects.filter(pk=area.pk).update(stage="cleaning")
        with pytest.raises(StagePassed, match="stands in cleaning, so nothing is done in teardown any more"):
            approve_added(added=added, by=shop.second, at=shop.later())


class TestWhatCannotBeAdded:
    def test_it_is_held_against_the_data_as_the_route_was(self, shop, visit):
        with pytest.raises(OperationMistaken) as refused:
            ask(shop, visit, title="", kind="a look", after=["polish"])
        assert len(refused.value.sentences) == 2
        assert "title is blank; fill in title." in refused.value.sentences
        assert not AddedOperation.objects.exists()

    def test_a_document_that_the_data_do_not_cite_is_not_of_the_data(self, shop, visit):
        with pytest.raises(NotInTheData, match="say that the operation is not from the engine data"):
            ask(shop, visit, from_data=True)
        assert ask(shop, visit, from_data=True, **CITED).from_data

    def test_nothing_is_added_without_a_reason(self, shop, visit):
        with pytest.raises(FieldRefused, match="Say why it is added"):
            ask(shop, visit, reason="  ")

    def test_nor_to_a_stage_that_has_passed(self, shop, visit):
        shop.sign(visit, "receive-case")
        shop.advance(visit, "case")
        with pytest.raises(StagePassed, match="Send the area back first, or choose a later stage"):
            ask(shop, visit)

    def test_nor_to_an_engine_that_has_left(self, shop, visit):
        close_visit(visit=visit, by=shop.inspector, at=shop.later())
        with pytest.raises(Closed):
            ask(shop, visit)


class TestItCountsEverywhere:
    def test_what_it_reads_is_required_until_it_is_read(self):
        data, later = small_pack(), ("read-mains", "fit-mains")
        route = [replace(each, scopes=("repair",)) if each.code in later else each for each in data.operations]
        shop = staffed(replace(data, operations=tuple(route)))
        visit = shop.receive()
        area = shop.area(visit, "case")
        wanted = "main journal diameter at main 1 is not read yet"
        type(area).objects.filter(pk=area.pk).update(stage="inspection")
        assert not any(wanted in each.sentence for each in blockers_of(situation_of(shop.area(visit, "case"))))
        add(shop, visit, stage="inspection", kind="reading", names=["crank-main"], title="Read the journals after all")
        assert any(wanted in each.sentence for each in blockers_of(situation_of(shop.area(visit, "case"))))

    def test_opened_again_with_what_it_depends_on(self, shop, visit):
        add(shop, visit, after=["receive-case"])
        shop.sign(visit, "receive-case")
        shop.sign(visit, "added-1")
        opened = reopen(operation=shop.operation(visit, "receive-case"), reason="wrong plate", by=shop.inspector, at=shop.later())
        assert {each.code for each in opened} == {"receive-case", "added-1"}
        assert shop.operation(visit, "added-1").signed_at is None

    def test_one_added_operation_waits_for_another(self, shop, visit):
        add(shop, visit)
        add(shop, visit, title="Then torque them", after=["added-1"])
        waiting = shop.operation(visit, "added-2")
        assert waits_for(fresh(visit), waiting) == ["“Look at the studs again” must be complete first."]

    def test_the_papers_say_that_it_was_added_why_and_by_whom(self, shop, visit):
        add(shop, visit)
        lines = [line for _, stages in traveler.context(str(visit.pk))["areas"] for _, found in stages for line in found]
        added = next(line for line in lines if line.operation.code == "added-1")
        assert (added.added.reason, added.added.decided_by) == ("a stud was found bent", shop.manager)
        assert [each.code for each in build_record.context(str(visit.pk))["added"]] == ["added-1"]

    def test_the_release_names_the_document_that_allowed_it(self, shop, visit):
        add(shop, visit)
        assert "Maker's letter (invented), revision 1" not in data_used(situation_of(shop.area(visit, "case")))
        shop.sign(visit, "added-1")
        assert "Maker's letter (invented), revision 1" in data_used(situation_of(shop.area(visit, "case")))

    def test_a_reason_found_later_plans_no_operation_twice(self, shop, visit):
        add(shop, visit)
        changed = add_reason(visit=fresh(visit), reason="propeller strike", by=shop.mechanic, at=shop.later())
        assert [each.code for each in plan_due(visit=changed, by=shop.mechanic, at=shop.later())] == ["flange-runout"]

    def test_the_release_is_held_while_it_is_open(self):
        shop = staffed(running_pack())
        visit = shop.receive()
        area = shop.area(visit, "engine")
        type(area).objects.filter(pk=area.pk).update(stage="release")
        added = ask(shop, visit, area="engine", stage="release", title="Look at the mounts")
        sentences = [each.sentence for each in release_blockers(whole_engine(fresh(visit)))]
        assert any(each.startswith("“Look at the mounts” was added and waits") for each in sentences)
        approve_added(added=added, by=shop.manager, at=shop.later())
        sentences = [each.sentence for each in release_blockers(whole_engine(fresh(visit)))]
        assert "“Look at the mounts” is not signed." in sentences
        shop.sign(visit, "added-1")
        sentences = [each.sentence for each in release_blockers(whole_engine(fresh(visit)))]
        assert not any("Look at the mounts" in each for each in sentences)


def test_data_read_once_cost_no_query(shop, visit, django_assert_num_queries):
    add(shop, visit)
    found = fresh(visit)
    data_for(found)
    with django_assert_num_queries(0):
        assert data_for(found).operation_by_code["added-1"].title == "Look at the studs again"


def test_what_was_undone_leaves_nothing_behind(shop, visit):
    added = ask(shop, visit)
    with transaction.atomic():
        approve_added(added=added, by=shop.manager, at=shop.later())
        assert "added-1" in data_for(fresh(visit)).operation_by_code
        transaction.set_rollback(True)
    assert "added-1" not in data_for(fresh(visit)).operation_by_code
    later = approve_added(added=ask(shop, visit, title="Another"), by=shop.manager, at=shop.later())
    assert [each.title for each in later] == ["Another"]


def test_no_room_asks_the_pinned_pack_for_the_operations_of_a_visit():
    """They are those of the pack and those that were added: `engines.visits.route.data_for` knows both."""
    past_it = re.compile(r"data_of\([\w.]*visit\.pack\)\.operation")
    rooms = Path(__file__).resolve().parents[3] / "engines"
    assert past_it.search("data_of(self.visit.pack).operation_by_code")
    assert [str(path) for path in rooms.rglob("*.py") if past_it.search(path.read_text())] == []
