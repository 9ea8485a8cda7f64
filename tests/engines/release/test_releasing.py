"""An engine is released: by whom, as what, with what standing, and what it takes with it."""

import threading
from contextlib import contextmanager
from datetime import date, timedelta

import pytest
from django.db import DatabaseError, connections, transaction
from uuid_utils.compat import uuid7

from engines.catalogue.data import Area
from engines.inspection.models import Said
from engines.inspection.services import answer, decide, raise_discrepancy, sign_second
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.release.checking import text_to_sign
from engines.release.errors import FieldRefused, NotAuthorised, ReleaseHeld, ReleaseRefused, SeenOtherwise
from engines.release.models import Release
from engines.release.queries import release_blockers, whole_engine
from engines.release.services import release, send_back
from engines.release.services.releasing import sha256_of
from engines.release.statement import concessions, data_used
from engines.traveler.services import end_authorisation, reopen
from engines.visits.errors import Closed
from engines.visits.models import ImpactLine, Tray, Visit
from engines.visits.services import add_photo
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Person
from shopfloor.people.services import set_certificate
from tests.making_packs import page, small_pack
from tests.making_people import AT
from tests.making_releases import DAY, ReleasingShop, release_pack
from tests.making_visits import Shop
from tests.permission_rows.benches import picture

DATA = Data("T2-90 repair scheme", "C", "page 2")


@pytest.fixture
def shop(db):
    return ReleasingShop()


@contextmanager
def undone():
    """What is done here is taken back: one engine at its end serves many cases."""
    with transaction.atomic():
        yield
        transaction.set_rollback(True)


def faults():
    """Of what was done through services: people are made past them in tests."""
    return [fault for fault in verify() if "people." not in fault.sentence]


def test_the_engine_leaves_with_all_that_its_signer_saw(shop):
    visit = shop.to_release(hours_since_new="2100")
    found = raise_discrepancy(visit=visit, area="case", words="a nick", by=shop.mechanic, at=shop.later())
    decide(discrepancy=found, kind=Kind.ACCEPT, data=DATA, words="in limits", by=shop.inspector, at=shop.later())
    signed = shop.release(visit, recommendations="Look at the plugs at 50 hours.")
    assert (signed.number, signed.amendment, signed.status) == (1, 0, "overhauled")
    assert signed.shown_sha256 == sha256_of(signed.shown)
    told = signed.content
    assert told["data"] == [
        "T2-90 engine data, revision 2",
        "T2-90 invented manual, revision 3",
        "T2-90 invented route, revision 3",
        "T2-90 repair scheme, revision C",
    ]
    assert told["done_by"] == [shop.mechanic.name]
    assert signed.done_by == shop.mechanic.name
    assert (told["certificate_kind"], told["certificate_number"]) == ("repairman", "INV 4711")
    assert told["directives"][0].startswith("T2-SB-1, Look for cracks at the flange")
    assert told["directives"][0].endswith(": complied with at this visit")
    assert (told["hours_since_new"], told["hours_since_overhaul"]) == ("2100", "not known")
    assert told["recommendations"] == "Look at the plugs at 50 hours."
    visit = Visit.objects.get(pk=visit.pk)
    assert visit.closed_at == signed.signed_at
    assert not Tray.objects.filter(emptied_at=None).exists()
    kinds = list(LedgerEvent.objects.filter(chain=f"engine:{visit.engine_id}").order_by("-id").values_list("kind", flat=True))
    assert kinds[:3] == ["release.signed", "visit.closed", "tray.emptied"]
    assert faults() == []


def test_after_the_release_nothing_is_added_and_the_tray_serves_the_next_engine(shop):
    visit = shop.to_release()
    shop.release(visit)
    operation = shop.operation(visit, "test-engine")
    for act in (
        lambda: raise_discrepancy(visit=visit, area="case", words="a nick", by=shop.mechanic, at=shop.later()),
        lambda: add_photo(visit=visit, area="", words="it", data=picture(), name="p.jpg", by=shop.mechanic, at=shop.later()),
        lambda: reopen(operation=operation, reason="looked again", by=shop.inspector, at=shop.later()),
        lambda: shop.release(visit),
    ):
        with pytest.raises(Closed, match="Nothing is added"):
            act()
    later = shop.receive()
    shop.tag(later, "crankshaft", "engine", mark="another", tray=f"tray-{visit.number}")
    shop.receive(serial=visit.engine.item.serial)
    assert Release.objects.count() == 1


def no_end(shop, visit):
    """The crankshaft is given up after all, and none has taken its place."""
    found = raise_discrepancy(
        visit=visit, area="case", line="crankshaft", place="engine", words="a crack", by=shop.mechanic, at=shop.later()
    )
    decide(discrepancy=found, kind=Kind.REPLACE, data=DATA, words="cracked", by=shop.inspector, at=shop.later())


HELD = {
    "an operation is open again": (
        lambda shop, visit: reopen(
            operation=shop.operation(visit, "cleaning-case"), reason="dirt", by=shop.inspector, at=shop.later()
        ),
        "“Cleaning of the case” was opened again and is not signed.",
    ),
    "an area went back": (
        lambda shop, visit: send_back(
            area=shop.area(visit, "case"), before="assembly", after="repair", reason="a stud", by=shop.mechanic, at=shop.later()
        ),
        "Case and crankshaft stands in repair and must be assembled first.",
    ),
    "the engine went back": (
        lambda shop, visit: send_back(
            area=shop.area(visit, "engine"), before="release", after="test", reason="oil", by=shop.mechanic, at=shop.later()
        ),
        "Whole engine stands in test and must come to release first.",
    ),
    "newer data": (
        lambda shop, visit: ImpactLine.objects.create(
            visit=visit, pack=shop.pack, area="case", words="a limit is narrower", listed_at=shop.now
        ),
        "Newer engine data: a limit is narrower",
    ),
    "nothing is decided": (
        lambda shop, visit: raise_discrepancy(visit=visit, area="engine", words="an oil leak", by=shop.mechanic, at=shop.later()),
        "Discrepancy 1 is not decided: an oil leak",
    ),
    "a decision is not carried out": (no_end, "Discrepancy 1: “replace” is not carried out."),
    "a part is unaccounted for": (no_end, "Crankshaft at engine has no end yet: “replace” is not carried out."),
}


def test_each_gate_holds_the_release_and_says_what_to_do(shop):
    visit = shop.to_release()
    assert release_blockers(whole_engine(visit)) == []
    for name, (act, sentence) in HELD.items():
        with undone():
            act(shop, visit)
            with pytest.raises(ReleaseHeld, match="The list below") as held:
                shop.release(visit, status="inspected")
            assert sentence in [each.sentence for each in held.value.blockers], name
    assert shop.release(visit)


def test_an_engine_whose_data_know_no_whole_engine_is_not_released(db):
    shop = ReleasingShop(small_pack(revision="2"))
    blockers = release_blockers(whole_engine(shop.receive()))
    assert [each.sentence for each in blockers] == [
        "The engine data have no area for the whole engine, so nothing says how it is run and released."
    ]


def test_only_an_authorised_and_certificated_inspector_releases(shop):
    visit = shop.to_release()
    for act, words in (
        (lambda: end_authorisation(authorisation=shop.authorised, by=shop.manager, at=shop.later()), "no authorisation"),
        (
            lambda: set_certificate(person=shop.inspector, kind="", number="", by=shop.manager, at=shop.later()),
            "No certificate number and kind",
        ),
    ):
        with undone():
            act()
            with pytest.raises(NotAuthorised, match=words):
                shop.release(visit)
    shop.authorise(shop.mechanic)
    with pytest.raises(NotAuthorised, match="Held by: inspector"):
        shop.release(visit, by=shop.mechanic)
    set_certificate(person=shop.second, kind="repairman", number="INV 5", by=shop.manager, at=shop.later())
    yesterday, tomorrow = DAY - timedelta(days=1), DAY + timedelta(days=1)
    for given in (
        {"valid_from": yesterday, "valid_until": yesterday},
        {"valid_from": tomorrow},
        {"covers": ("F9-1",)},
    ):
        with undone():
            if "covers" in given:
                shop.pack.model.__class__.objects.create(code="F9-1", name="another", maker="Invented", added_at=shop.now)
            shop.authorise(shop.second, **given)
            with pytest.raises(NotAuthorised, match="no authorisation for the release of T2-90"):
                shop.release(visit, by=shop.second)
    shop.authorise(shop.second, covers=("T2-90",), valid_until=DAY)
    assert shop.release(visit, by=shop.second).content["certificate_number"] == "INV 5"


def test_the_document_of_a_reading_counts_among_the_data_used_once_it_was_read(db):
    limits = tuple({**row, "document": "Limits letter"} if row["row"] == "skirt-diameter" else row for row in small_pack().limits)
    shop = Shop(small_pack(limits=limits))
    visit = shop.receive()
    shop.sign(visit, "receive-case")
    shop.tag(visit, "piston", "cylinder 1")
    before = data_used(whole_engine(visit))
    shop.read(visit, "skirt-diameter", "cylinder 1", "4.3635")
    assert before == ["T2-90 engine data, revision 1", "T2-90 invented manual, revision 3"]
    assert data_used(whole_engine(visit)) == [before[0], "Limits letter, revision 3", before[1]]


def test_the_database_knows_three_words_and_no_other(shop):
    signed = shop.release(shop.to_release(), status="inspected")
    fields = {field.attname: getattr(signed, field.attname) for field in Release._meta.concrete_fields}
    with pytest.raises(DatabaseError, match="released_as_one_of_three"), transaction.atomic():
        Release.objects.create(**fields | {"id": uuid7(), "number": 2, "visit_id": shop.receive().pk, "status": "as new"})


def test_the_certificate_is_that_of_the_moment(shop):
    signed = shop.release(shop.to_release())
    set_certificate(person=shop.inspector, kind="mechanic", number="INV 9", by=shop.manager, at=shop.later())
    signed.refresh_from_db()
    assert (signed.certificate_kind, signed.certificate_number) == ("repairman", "INV 4711")


def test_overhauled_is_only_what_was_overhauled(db):
    shop = ReleasingShop(release_pack(without=("cleaning",)))
    visit = shop.to_release()
    with pytest.raises(ReleaseHeld) as held:
        shop.release(visit)
    assert [each.sentence for each in held.value.blockers] == [
        "Case and crankshaft is not cleaned: no operation of the stage cleaning is signed for it."
    ]
    assert shop.release(visit, status="repaired").status == "repaired"
    inspected = shop.to_release(scope="inspection")
    with pytest.raises(ReleaseHeld) as held:
        shop.release(inspected)
    assert held.value.blockers[0].sentence.startswith("The engine was received for inspection, not for overhaul")


def test_what_is_filled_in_must_make_sense(shop):
    visit = shop.to_release()
    for wrong, words in (
        ({"status": "as good as new"}, "Choose what it is released as"),
        ({"description": " "}, "Describe the work"),
        ({"completed_on": DAY + timedelta(days=1)}, "a day to come"),
        ({"completed_on": date(2025, 1, 1)}, "before the engine was received"),
        ({"directives": {}}, "every directive"),
        ({"directives": {"T2-SB-1": "not known"}}, "every directive"),
    ):
        with pytest.raises(FieldRefused, match=words):
            shop.release(visit, **wrong)
    assert Visit.objects.get(pk=visit.pk).closed_at is None


def test_what_changed_since_it_was_shown_is_shown_again(shop):
    visit = shop.to_release()
    with pytest.raises(SeenOtherwise):
        shop.release(visit, seen="0" * 64)
    assert not Release.objects.exists()
    assert not LedgerEvent.objects.filter(kind="visit.closed").exists()


def test_a_release_is_never_changed_and_a_forged_one_is_found(shop, as_owner):
    signed = shop.release(shop.to_release())
    for change in (lambda: Release.objects.update(status="repaired"), lambda: Release.objects.all().delete()):
        with pytest.raises(DatabaseError), transaction.atomic():
            change()
    with as_owner():
        Release.objects.filter(pk=signed.pk).update(shown=signed.shown.replace("T2-SB-1", "T2-SB-2"))
    assert any("release.release" in fault.sentence and "shown" in fault.sentence for fault in faults())


@pytest.mark.django_db(transaction=True)
def test_of_two_who_release_at_once_one_is_told_that_it_is_done():
    shop = ReleasingShop()
    visit = shop.to_release()
    given, outcomes = shop.given(), []
    seen = sha256_of(text_to_sign(visit, given, Person.objects.get(pk=shop.inspector.pk), DAY))
    at = shop.later()

    def sign():
        try:
            release(visit=visit, given=given, seen_sha256=seen, by=shop.inspector, at=at)
            outcomes.append("released")
        except (Closed, ReleaseRefused):
            outcomes.append("refused")
        finally:
            connections.close_all()

    threads = [threading.Thread(target=sign) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["refused"] * 3 + ["released"]
    assert Release.objects.count() == 1


def test_another_engine_has_the_next_number(db):
    shop = ReleasingShop(
        release_pack(areas=(Area(code="engine", name="Whole engine", source=page("7-1")),), operations=(), lines=())
    )
    visits = []
    for _ in range(2):
        visit = shop.receive()
        for _ in range(3):
            shop.advance(visit, "engine")
        visits.append(visit)
    assert [shop.release(visit, status="inspected").number for visit in visits] == [1, 2]


def test_work_that_the_customer_refused_is_printed_with_who_refused_it(shop):
    visit = shop.to_release(stop="close-up")
    found = raise_discrepancy(visit=visit, area="case", words="paint worn off", by=shop.mechanic, at=shop.later())
    asked = shop.ask(found, words="Paint the whole case")
    owner = shop.owner(visit)
    answer(request=asked, said=Said.REFUSED, words="not now", by=owner, at=shop.later())
    decide(discrepancy=found, kind=Kind.ACCEPT, data=DATA, words="looks only", by=shop.inspector, at=shop.later())
    for stage in ("close-up", "test", "final inspection"):
        shop.sign_all(visit, "engine", stage)
        shop.advance(visit, "engine")

    released = shop.release(visit)

    said = f"Request 1, rework: Paint the whole case (refused by {owner.name} on {AT:%Y-%m-%d}: not now)"
    assert released.content["refused"] == [said]


def test_a_concession_that_the_customer_undid_is_not_printed(shop):
    """The refusal of the work took every decision back, and what was decided since is no concession."""
    visit = shop.to_release()
    found = raise_discrepancy(visit=visit, area="case", words="a nick", by=shop.mechanic, at=shop.later())

    def decided(kind, seen):
        given = {"data": DATA, "words": "as it is", "seen": seen}
        return decide(discrepancy=found, kind=kind, **given, by=shop.inspector, at=shop.later())

    asked = shop.ask(found)
    conceded = decided(Kind.CONCESSION, 0)
    sign_second(disposition=conceded, by=shop.second, at=shop.later())
    assert len(concessions(whole_engine(visit))) == 1
    answer(request=asked, said=Said.REFUSED, by=shop.owner(visit), at=shop.later())
    assert concessions(whole_engine(visit)) == []
    decided(Kind.ACCEPT, 1)
    assert shop.release(visit).content["concessions"] == []
