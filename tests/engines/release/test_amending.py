"""A release is corrected by another one, which the customer hears of; serious defects are reported in time."""

from datetime import timedelta

import pytest

from engines.inspection.services import decide, raise_discrepancy
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.release.errors import (
    AmendedAlready,
    FieldRefused,
    MarkedAlready,
    NotAuthorised,
    ReleaseHeld,
    ReportedAlready,
    SeenAlready,
)
from engines.release.models import Notice, Release
from engines.release.queries import serious_of, to_report, visible_notices, visible_releases
from engines.release.services import mark_serious, report_serious, see_notice
from engines.traveler.services import end_authorisation
from engines.visits.models import ImpactLine, Visit
from shopfloor.people.models import Role
from tests.engines.release.test_releasing import faults
from tests.making_people import make_customer, make_person
from tests.making_releases import ReleasingShop

DATA = Data("T2-90 repair scheme", "C", "page 2")


@pytest.fixture
def shop(db):
    return ReleasingShop()


def test_the_first_stays_and_the_customer_is_told(shop):
    visit = shop.to_release()
    first = shop.release(visit)
    shown = first.shown
    ImpactLine.objects.create(visit=visit, pack=shop.pack, words="listed after it left", listed_at=shop.now)
    second = shop.amend(first, description="Overhauled; case repaired.", data=("T2-90 engine data, revision 2", "Letter 7"))
    assert (second.number, second.amendment, second.amends, second.visit) == (2, 1, first, visit)
    assert second.content["data"] == ["T2-90 engine data, revision 2", "Letter 7"]
    assert (second.content["amends"], second.content["reason"]) == ("1", "a document was left out")
    assert Release.objects.get(pk=first.pk).shown == shown
    notice = Notice.objects.get()
    assert notice.customer == visit.customer
    for words in ("release 2", "release 1", "a document was left out"):
        assert words in notice.words
    with pytest.raises(AmendedAlready, match="Open release 2"):
        shop.amend(first)
    third = shop.amend(second)
    assert (third.number, third.amendment) == (3, 2)
    assert Visit.objects.get(pk=visit.pk).closed_at == first.signed_at
    assert [fault for fault in faults() if "impactline" not in fault.sentence] == []


def test_an_amendment_needs_the_same_signer_and_the_same_proofs(shop):
    first = shop.release(shop.to_release(), status="repaired")
    for wrong, words in (({"reason": " "}, "Say why"), ({"data": ()}, "Name the data used")):
        with pytest.raises(FieldRefused, match=words):
            shop.amend(first, **wrong)
    Visit.objects.filter(pk=first.visit_id).update(scope="repair")
    with pytest.raises(ReleaseHeld):
        shop.amend(Release.objects.get(pk=first.pk), status="overhauled")
    end_authorisation(authorisation=shop.authorised, by=shop.manager, at=shop.later())
    with pytest.raises(NotAuthorised):
        shop.amend(first)
    assert Release.objects.count() == 1


def test_a_customer_sees_and_answers_for_own_engines_only(shop):
    visit = shop.to_release()
    shop.amend(shop.release(visit))
    own = make_person(Role.CUSTOMER, customer=visit.customer)
    stranger = make_person(Role.CUSTOMER, customer=make_customer())
    assert (visible_releases(own).count(), visible_releases(stranger).count()) == (2, 0)
    assert visible_releases(shop.mechanic).count() == 2
    assert not visible_notices(stranger).exists()
    notice = see_notice(notice=visible_notices(own).get(), by=own, at=shop.later())
    assert notice.seen_by == own
    with pytest.raises(SeenAlready):
        see_notice(notice=notice, by=own, at=shop.later())
    assert faults() == []


def test_the_hours_run_from_the_discovery_and_on_after_the_engine_left(shop):
    """96 hours: 14 CFR 145.221(a)."""
    visit = shop.to_release()
    found = raise_discrepancy(visit=visit, area="case", words="a crack in the crank", by=shop.mechanic, at=shop.later())
    decide(discrepancy=found, kind=Kind.ACCEPT, data=DATA, words="the scheme allows it", by=shop.inspector, at=shop.later())
    marked = mark_serious(discrepancy=found, by=shop.inspector, at=shop.later())
    assert marked.due_at == found.raised_at + timedelta(hours=96)
    hours = [marked.hours_left(found.raised_at + timedelta(hours=gone)) for gone in (0, 95, 96, 97)]
    assert hours == [96, 1, 0, -1]
    with pytest.raises(MarkedAlready):
        mark_serious(discrepancy=found, by=shop.inspector, at=shop.later())
    first = shop.release(visit)
    assert "not reported yet" in first.content["serious"][0]
    with pytest.raises(FieldRefused):
        report_serious(defect=marked, reported_to=" ", by=shop.inspector, at=shop.later())
    assert list(to_report()) == [marked]
    report_serious(defect=marked, reported_to="the authority, ref 12", by=shop.inspector, at=shop.later())
    with pytest.raises(ReportedAlready):
        report_serious(defect=marked, reported_to="again", by=shop.inspector, at=shop.later())
    assert not to_report().exists()
    assert serious_of(visit).get().reported_by == shop.inspector
    assert "reported to the authority, ref 12" in shop.amend(first).content["serious"][0]
    assert faults() == []
