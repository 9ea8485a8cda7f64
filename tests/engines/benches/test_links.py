"""Every event about an engine leads to a page that is there."""

import pytest

from engines.benches.links import LINKS
from engines.inspection.models import Said
from engines.inspection.services import answer, decide, withdraw
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.packs.services import open_draft, send_in
from engines.parts.services import book_evidence, fit_item, remove_item
from engines.traveler.models import Authorised
from engines.traveler.services import add_operation, approve_added, reopen
from shopfloor.ledger.kinds import event_kinds, link_of, sentence_of
from shopfloor.ledger.models import LedgerEvent
from tests.making_authorisations import entrust
from tests.making_visits import Shop

ROOMS = ("visit.", "area.", "stage.", "tray.", "part.", "impact.", "engine.read", "operation.", "entry.", "signature.")
ROOMS += ("reopening.", "discrepancy.", "disposition.", "request.", "item.", "evidence.")
ROOMS += ("addition.", "route.")
ROOMS += ("release.", "notice.", "serious-defect.", "authorisation.")
NOWHERE = {"disposition.carried-out"}


def test_every_kind_of_the_rooms_below_leads_somewhere():
    theirs = {kind for kind in event_kinds() if kind.startswith(ROOMS)}
    assert theirs - NOWHERE == set(LINKS)


@pytest.mark.django_db
def test_each_event_of_a_story_leads_to_its_page(client):
    shop = Shop()
    visit = shop.receive(notes={"missing": [("a hose", "")]})
    entrust(shop.second, whats=[Authorised.DATA_APPROVAL], by=shop.manager)
    letter = {"area": "case", "stage": "receiving", "kind": "sign-off", "title": "Look again"}
    letter |= {"document": "a letter", "revision": "1", "page": "2"}
    why = {"from_data": False, "reason": "a bent stud", "by": shop.inspector, "at": shop.later()}
    approve_added(added=add_operation(visit=visit, given=letter, **why), by=shop.second, at=shop.later())
    shop.sign(visit, "added-1")
    draft = open_draft(pack=shop.pack, revision="2", by=shop.manager, at=shop.later())
    send_in(draft=draft, seen=1, revision="2", by=shop.manager, at=shop.later())
    shop.sign(visit, "receive-cylinders")
    reopen(operation=shop.operation(visit, "receive-cylinders"), reason="looked again", by=shop.inspector, at=shop.later())
    shop.sign(visit, "receive-case")
    shop.advance(visit, "case")
    shop.tag_all(visit, "piston")
    shop.read(visit, "skirt-diameter", "cylinder 1", "4.3500")
    found = visit.discrepancies.get()
    data = Data("T2-90 invented manual", "3", "page 4-4")
    decide(discrepancy=found, kind=Kind.REWORK, data=data, words="polish", by=shop.inspector, at=shop.later())
    asked = shop.ask(found)
    withdraw(request=asked, words="asked too early", by=shop.inspector, at=shop.later())
    answer(request=shop.ask(found), said=Said.APPROVED, by=shop.owner(visit), at=shop.later())
    piston = visit.tagged.get(place="cylinder 2").item
    book_evidence(item=piston, kind="certificate", number="C-1", by=shop.manager, at=shop.later())
    fitment = fit_item(
        item=piston,
        root=visit.engine.item,
        line="piston",
        place="cylinder 2",
        fitted_at=shop.later(),
        by=shop.mechanic,
        at=shop.now,
    )
    remove_item(fitment=fitment, removed_at=shop.later(), reason="too tight", by=shop.mechanic, at=shop.now)
    client.force_login(shop.inspector)
    told = {event.kind: event for event in LedgerEvent.objects.exclude(chain__in=["people", "shop"]) if event.kind in LINKS}
    assert len(told) > 15
    for kind, event in told.items():
        assert client.get(link_of(event)).status_code == 200, kind
        assert "{" not in sentence_of(event)
