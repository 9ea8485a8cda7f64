"""A part goes out, comes back with its papers, is looked at and read again; or any of that goes wrong. All figures invented."""

import io
from dataclasses import replace
from datetime import date

import pytest
from pypdf import PdfReader

from engines.inspection.ends import ends_of
from engines.inspection.errors import IsOut
from engines.inspection.facts import inspection_of
from engines.inspection.models import Discrepancy
from engines.inspection.reworks import reworked_at
from engines.inspection.services import carry_out, enter_reading
from engines.inspection.services.deciding import Data, decide, take_its_place
from engines.inspection.services.reading import Given
from engines.inspection.standing import Kind, State
from engines.packs.reading import PackMistakes, pack_of
from engines.parts.errors import NotAtHand
from engines.parts.services import fit_item
from engines.release.errors import MoveRefused
from engines.release.queries import blockers_of, situation_of
from engines.steps.kinds.outside_work import OutsideWorkStep
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from engines.vendors.errors import FieldRefused, NotAnInspector, NotApproved, OrderedAlready
from engines.vendors.models import OutsideWork
from engines.vendors.services import suspend, withdraw
from engines.visits.services import Identity, tag_replacement
from shopfloor.documents.rendering import page_of, pdf_of
from shopfloor.documents.services import request_document
from tests.making_packs import UNDER, page, small_pack, with_operations
from tests.making_vendors import GRIND, SPOT, Grinding, case, faults_told, grinding_pack, make_vendor
from tests.pack_files import files_of

pytestmark = pytest.mark.django_db
DATA = Data("T2-90 invented manual", "3", "page 5-2")
POINTS = [(plane, direction, "2.1145") for plane in ("front", "rear") for direction in ("0", "90")]


@pytest.fixture
def errand():
    return Grinding()


def state(errand, row="crank-main", place="main 1"):
    now = inspection_of(errand.visit)
    return now.of(now.rows.by_key[row, place]).state


def decide_last(errand, kind):
    found = Discrepancy.objects.latest("number")
    seen = found.dispositions.count()
    return decide(
        discrepancy=found, kind=kind, data=DATA, words="so", seen=seen, by=errand.shop.inspector, at=errand.shop.later()
    )


def opened(errand, reason, code="grind"):
    operation = errand.shop.operation(errand.visit, code)
    reopen(operation=operation, reason=reason, by=errand.shop.inspector, at=errand.shop.later())


def sign_the_look(errand):
    errand.shop.enter(errand.visit, "look", spot=SPOT, verdict="accepted", words="", across=None, down=None)
    errand.shop.sign(errand.visit, "look")
    errand.shop.accept(errand.visit, "look")


def test_out_back_looked_at_read_again_and_on(errand):
    order = errand.place()
    assert (order.position, order.asked, order.source) == (
        "crankshaft, engine",
        GRIND["asked"],
        "T2-90 invented manual, revision 3, page 5-2",
    )
    errand.send()
    errand.back()
    errand.look()
    signed = errand.shop.sign(errand.visit, "grind")
    assert signed.is_complete
    shown = signed.signatures.get().shown
    assert all(words in shown for words in ("C-100 of 2026-03-02", "dimension sheet: DS-4", "mains ground", "back, as asked"))
    sign_the_look(errand)
    held = [each.sentence for each in blockers_of(situation_of(errand.shop.area(errand.visit, "case")))]
    assert "Crankshaft, main journal diameter at main 1 was decided, but is not carried out and read again." in held
    with pytest.raises(MoveRefused):
        errand.shop.advance(errand.visit, "case")
    errand.read_ground()
    assert errand.shop.advance(errand.visit, "case").stage == "assembly"
    assert not Discrepancy.objects.exists()


def test_what_was_read_before_it_went_out_is_history_from_the_moment_it_leaves(errand):
    errand.place()
    assert state(errand) == State.GOOD
    errand.send()
    assert state(errand) == state(errand, "crank-main-oor") == State.PENDING
    errand.back()
    assert state(errand) == State.PENDING
    errand.read_ground()
    assert state(errand) == state(errand, "crank-main-oor") == State.GOOD


def test_a_reading_that_the_tablet_dates_into_its_absence_does_not_count(errand):
    errand.place()
    errand.send()
    while_out = errand.shop.later()
    errand.back()
    enter_reading(
        visit=errand.visit,
        row="crank-main",
        place="main 1",
        given=Given(points=POINTS, unit="in", gauge=None, condition="after rework", size_class=UNDER),
        taken_at=while_out,
        by=errand.shop.mechanic,
        at=errand.shop.later(),
    )
    assert state(errand) == State.PENDING
    errand.read_ground()
    assert state(errand) == State.GOOD


def test_while_it_is_out_nobody_reads_fits_tags_or_signs_for_it(errand):
    shop, visit = errand.shop, errand.visit
    shop.enter(visit, "look", spot=SPOT, verdict="accepted", words="", across=None, down=None)
    errand.place()
    errand.send()
    item = errand.order.item
    said = "Crankshaft.* is out with Invented Grinding .order 1, due 2026-03-20."
    with pytest.raises(IsOut, match=said):
        errand.read("2.1245")
    with pytest.raises(NotAtHand, match=said):
        fit_item(
            item=item,
            root=visit.engine.item,
            line="crankshaft",
            place="engine",
            fitted_at=shop.now,
            by=shop.mechanic,
            at=shop.now,
        )
    with pytest.raises(NotYet, match=said):
        shop.enter(visit, "look", spot=SPOT, verdict="accepted", words="", across=None, down=None)
    with pytest.raises(NotYet, match=said):
        shop.sign(visit, "look")
    with pytest.raises(NotAtHand, match=said):
        tag_replacement(visit=visit, line="case-half", place="case", item=item, words="so", by=shop.mechanic, at=shop.later())
    errand.back()
    assert shop.sign(visit, "look").signed_at


def test_a_hold_point_is_not_accepted_for_a_part_that_went_out_after_the_signature(errand):
    shop, visit = errand.shop, errand.visit
    shop.enter(visit, "look", spot=SPOT, verdict="accepted", words="", across=None, down=None)
    shop.sign(visit, "look")
    errand.place()
    errand.send()
    with pytest.raises(NotYet, match="is out with Invented Grinding"):
        shop.accept(visit, "look")
    errand.back()
    assert shop.accept(visit, "look").is_complete


def test_a_part_that_was_ordered_and_not_sent_is_still_here(errand):
    errand.place()
    errand.read("2.1244")
    with pytest.raises(NotYet, match="order 1 with Invented Grinding: ordered, not sent yet"):
        errand.shop.sign(errand.visit, "grind")


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"scope": ""}, "Other Works has no approval that had begun on 2026-03-02"),
        ({"valid_until": date(2026, 3, 1)}, "Other Works: its approval V-7 ended on 2026-03-01, before 2026-03-02"),
        ({"valid_from": date(2026, 3, 3)}, "Other Works has no approval that had begun"),
        (
            {"scope": "grinding: camshaft\nplating: crankshaft"},
            "Other Works: its approval V-7 does not name grinding of: crankshaft",
        ),
    ],
)
def test_a_vendor_that_may_not_do_it_is_refused_by_name(errand, given, said):
    other = make_vendor(errand.shop.manager, "Other Works", **given)
    with pytest.raises(NotApproved, match=said):
        errand.place(other)
    assert not OutsideWork.objects.exists()
    assert not errand.shop.operation(errand.visit, "grind").entries.exists()


def test_a_suspended_vendor_is_refused_with_the_reason(errand):
    shop = errand.shop
    suspend(vendor=errand.vendor, suspended_on=date(2026, 3, 1), reason="wheel dressed wrong", by=shop.manager, at=shop.later())
    with pytest.raises(NotApproved, match="Invented Grinding has been suspended since 2026-03-01: wheel dressed wrong"):
        errand.place()


def test_an_order_needs_a_day_from_today_on(errand):
    with pytest.raises(StepRefused, match="on which day it is due back"):
        errand.place(due_on=None)
    with pytest.raises(FieldRefused, match="2026-03-01 has passed"):
        errand.place(due_on=date(2026, 3, 1))


def test_two_orders_of_one_part_are_refused():
    second = {"code": "plate", "title": "Crankshaft to the plater"}
    pack = grinding_pack()
    errand = Grinding(with_operations(pack, replace(pack.operations[-1], **second)))
    errand.place()
    with pytest.raises(OrderedAlready, match="Crankshaft crankshaft-engine is on order 1 with Invented Grinding already"):
        errand.shop.enter(
            errand.visit,
            "plate",
            asked="order the work: crankshaft, engine",
            answer=str(errand.vendor.pk),
            due_on=date(2026, 3, 9),
        )
    withdraw(order=errand.order, words="plated first", by=errand.shop.mechanic, at=errand.shop.later())
    with pytest.raises(NotYet, match="no work is ordered of a vendor"):
        errand.shop.sign(errand.visit, "grind")


def test_only_an_inspector_says_what_came_back(errand):
    errand.went_out_and_came_back()
    with pytest.raises(NotYet, match="order 1: back, an inspector has to look at it"):
        errand.shop.sign(errand.visit, "grind")
    with pytest.raises(NotAnInspector):
        errand.look(by=errand.shop.mechanic)
    assert not hasattr(errand.order, "look")


def test_what_came_back_wrong_is_brought_up_and_goes_out_again(errand):
    errand.went_out_and_came_back()
    with pytest.raises(FieldRefused, match="Say what is wrong"):
        errand.look("damaged or wrong")
    errand.look("damaged or wrong", "main 2 is burnt")
    found = Discrepancy.objects.get()
    assert (found.line, found.at, found.operation) == (*SPOT, "grind")
    assert "back from Invented Grinding damaged or wrong (order 1): main 2 is burnt" in found.words
    with pytest.raises(NotYet, match="discrepancy 1 is not decided"):
        errand.shop.sign(errand.visit, "grind")
    with pytest.raises(StepRefused, match="Nothing is left to be entered"):
        errand.place()
    made = decide_last(errand, Kind.REWORK)
    errand.went_out_and_came_back()
    errand.look()
    assert errand.shop.sign(errand.visit, "grind").is_complete
    assert OutsideWork.objects.count() == 2
    carry_out(disposition=made, words="ground again", by=errand.shop.mechanic, at=errand.shop.later())


@pytest.mark.parametrize("kind", [Kind.ACCEPT, Kind.REWORK])
def test_what_is_let_pass_or_reworked_here_need_not_go_out_again(errand, kind):
    errand.went_out_and_came_back()
    errand.look("damaged or wrong", "a scratch on the flange")
    made = decide_last(errand, kind)
    if kind == Kind.REWORK:
        carry_out(disposition=made, words="dressed by hand", by=errand.shop.mechanic, at=errand.shop.later())
    assert errand.shop.sign(errand.visit, "grind").is_complete


def test_the_part_that_takes_the_place_of_a_spoilt_one_is_asked_about_anew(errand):
    errand.went_out_and_came_back()
    errand.look("damaged or wrong", "cracked in grinding")
    made = decide_last(errand, Kind.REPLACE)
    shop = errand.shop
    with pytest.raises(NotYet, match="“replace” is decided: tag the part that takes its place"):
        shop.sign(errand.visit, "grind")
    take_its_place(disposition=made, identity=Identity(serial="CS-2"), words="bought", by=shop.mechanic, at=shop.later())
    with pytest.raises(StepRefused, match="Say what shows that it may stay here"):
        errand.place(answer="stays here")
    errand.place(answer="stays here", reason="new, certificate R-1")
    assert shop.sign(errand.visit, "grind").is_complete


def test_back_without_its_papers_is_never_as_asked(errand):
    errand.place()
    errand.send()
    errand.back_without()
    with pytest.raises(FieldRefused, match="came back without its papers"):
        errand.look()
    errand.look("damaged or wrong", "no papers")
    assert Discrepancy.objects.get().words.endswith("no papers")


def test_opened_again_it_is_ordered_anew(errand):
    errand.went_out_and_came_back()
    errand.look()
    errand.shop.sign(errand.visit, "grind")
    opened(errand, "a fillet is sharp")
    with pytest.raises(NotYet, match="no work is ordered of a vendor"):
        errand.shop.sign(errand.visit, "grind")
    errand.went_out_and_came_back()
    errand.look()
    assert errand.shop.sign(errand.visit, "grind").round == 2


def test_begun_anew_while_it_is_out_its_order_still_counts():
    first = case(code="papers", stage="repair", kind="sign-off", title="Papers of the grinder read", source=page("5-1"))
    errand = Grinding(with_operations(grinding_pack(after=("papers",)), first))
    errand.shop.sign(errand.visit, "papers")
    errand.place()
    errand.send()
    opened(errand, "the wrong papers", "papers")
    assert errand.shop.operation(errand.visit, "grind").round == 2
    errand.shop.sign(errand.visit, "papers")
    with pytest.raises(NotYet, match="order 1 with Invented Grinding: out"):
        errand.shop.sign(errand.visit, "grind")
    errand.back()
    errand.look()
    assert errand.shop.sign(errand.visit, "grind").is_complete


def test_where_the_data_say_when_it_stays_it_stays_with_a_reason():
    errand = Grinding(grinding_pack(GRIND | {"unless": "Every journal is within new limits."}))
    errand.place(answer="stays here", reason="read 2.1245 at both mains")
    assert errand.shop.sign(errand.visit, "grind").is_complete
    assert not OutsideWork.objects.exists()
    assert state(errand) == State.GOOD


def test_where_the_data_name_no_such_case_it_goes_out(errand):
    with pytest.raises(StepRefused, match="The data do not let it stay here"):
        errand.place(answer="stays here", reason="looks good")


def test_an_answer_to_what_was_asked_before_is_noticed(errand):
    errand.place()
    with pytest.raises(StepRefused, match="Nothing is left to be entered"):
        errand.place()
    errand.send()
    errand.back()
    with pytest.raises(StepRefused, match="What is asked now is “look at what came back: crankshaft, engine”"):
        errand.place()


def test_a_reading_operation_that_is_not_signed_waits_for_the_new_reading():
    pack = grinding_pack()
    anew = replace(pack.operations[0], code="read-anew", stage="repair", after=("grind",))
    errand = Grinding(with_operations(pack, anew))
    errand.went_out_and_came_back()
    errand.look()
    errand.shop.sign(errand.visit, "grind")
    with pytest.raises(NotYet, match="main journal diameter at main 1: not read yet"):
        errand.shop.sign(errand.visit, "read-anew")
    errand.read_ground()
    assert errand.shop.sign(errand.visit, "read-anew").is_complete


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"asked": " "}, "asked is one text"),
        ({"evidence": []}, "evidence lists the papers"),
        ({"evidence": ["x" * 61]}, "in at most 60 letters"),
        ({"read_again": ["no-row"]}, "read_again names “no-row”, which is no row that is read"),
        ({"read_again": ["crank-main-oor"]}, "which is no row that is read"),
        ({"read_again": []}, "read_again lists rows"),
        ({"unless": ["good"]}, "unless is one text"),
        ({"work": "g" * 121}, "work is longer than 120 letters"),
        ({"colour": "red"}, "the kind outside-work knows no details “colour”"),
    ],
)
def test_data_that_do_not_say_what_is_asked_are_refused(changed, said):
    with pytest.raises(PackMistakes, match=said):
        pack_of({name: text.encode() for name, text in files_of(grinding_pack(GRIND | changed)).items()})


def test_a_part_without_an_identity_is_not_sent():
    pack = grinding_pack(GRIND | {"read_again": ["crank-main"]}, names=("case-half",))
    with pytest.raises(PackMistakes, match="which is read on “crankshaft”, not on what goes out"):
        pack_of({name: text.encode() for name, text in files_of(pack).items()})


@pytest.mark.parametrize(("line", "said"), [("gasket", "has no identity that could go out"), ("crankshaft", "")])
def test_only_what_has_an_identity_goes_out(line, said):
    found = list(OutsideWorkStep().check_details(outside(line), small_pack()))
    assert found == ([f"“{line}” {said} and come back"] if said else [])


def test_one_of_two_parts_that_is_out_holds_the_other_up_only_at_the_signature():
    pack = grinding_pack({name: GRIND[name] for name in ("work", "part", "asked", "evidence")}, names=("case-half",))
    errand = Grinding(replace(pack, operations=tuple(_both(each) for each in pack.operations)))
    errand.place(asked="order the work: case-half, case", vendor=errand.vendor)
    errand.send()
    errand.shop.enter(errand.visit, "look", spot=SPOT, verdict="accepted", words="", across=None, down=None)
    with pytest.raises(NotYet, match="Case, case, is out with"):
        errand.shop.enter(errand.visit, "look", spot=("case-half", "case"), verdict="accepted", words="", across=None, down=None)
    with pytest.raises(NotYet, match="Case, case, is out with"):
        errand.shop.sign(errand.visit, "look")


def _both(operation):
    return replace(operation, names=("crankshaft", "case-half")) if operation.code == "look" else operation


def test_a_part_that_went_out_ends_as_reworked(errand):
    def end():
        return next(each for each in ends_of(inspection_of(errand.visit)) if each.line.line == "crankshaft")

    assert end().end == "reused"
    errand.place()
    errand.send()
    assert (end().end, end().why) == ("", "it is out with Invented Grinding, order 1.")
    errand.back()
    assert end().end == "reworked"


def test_what_is_read_nowhere_else_is_read_again_before_the_area_goes_on():
    pack = grinding_pack()
    errand = Grinding(replace(pack, limits=tuple({**row, "required": False} for row in pack.limits)))
    errand.went_out_and_came_back()
    errand.look()
    held = {each.sentence for each in blockers_of(situation_of(errand.shop.area(errand.visit, "case")))}
    assert "Crankshaft, main journal diameter at main 2 was decided, but is not carried out and read again." in held
    errand.read_ground()
    held = {each.sentence for each in blockers_of(situation_of(errand.shop.area(errand.visit, "case")))}
    assert not [each for each in held if "main journal" in each]


def test_the_record_of_all_of_it_verifies(errand):
    errand.went_out_and_came_back()
    errand.look("damaged or wrong", "burnt")
    assert not faults_told()


def outside(line):
    details = {name: GRIND[name] for name in ("work", "part", "asked", "evidence")}
    return case(code="x", stage="repair", kind="outside-work", title="x", names=(line,), details=details, source=page("5-2"))


def test_the_traveler_prints_every_order_with_what_came_back(errand):
    errand.place()
    withdraw(order=errand.order, words="the wrong vendor", by=errand.shop.mechanic, at=errand.shop.later())
    errand.went_out_and_came_back()
    errand.look("damaged or wrong", "main 2 is burnt")
    paper = request_document(kind="visit-traveler", subject=str(errand.visit.pk), by=errand.shop.mechanic, at=errand.shop.later())
    pages = PdfReader(io.BytesIO(pdf_of(page_of(paper)))).pages
    text = " ".join(" ".join(each.extract_text() for each in pages).split())
    for words in (
        "Invented Grinding",
        "approval V-7",
        "the wrong vendor",
        "by the van",
        "C-100",
        "DS-4",
        "main 2 is burnt",
        "undersize",
    ):
        assert words in text


def test_what_was_seen_before_it_came_back_is_seen_anew_as_after_a_rework(errand):
    errand.place()
    errand.send()
    assert reworked_at(inspection_of(errand.visit), SPOT) is None
    errand.back()
    assert reworked_at(inspection_of(errand.visit), SPOT) == errand.order.back.back_at
    assert reworked_at(inspection_of(errand.visit), ("case-half", "case")) is None


def test_with_the_look_whatever_is_done_again_after_a_rework_is_asked_for(errand, monkeypatch):
    told = []
    monkeypatch.setattr("engines.inspection.hooks.after_work", [lambda visit, by, at: told.append((visit, by))])
    errand.went_out_and_came_back()
    assert told == []
    errand.look()
    assert told == [(errand.visit, errand.shop.inspector)]
