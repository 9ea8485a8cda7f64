"""What is opened again takes with it whatever was begun on top of it, and nothing is opened in silence."""

from dataclasses import replace

import pytest

from engines.parts.services import scrap_item
from engines.release.queries import blockers_of, situation_of
from engines.release.services import send_back
from engines.traveler.errors import NothingToOpen
from engines.traveler.services import reopen
from engines.visits.queries import tagged_now
from shopfloor.ledger.models import LedgerEvent
from tests.making_joints import ONE_PASS, Joint, torqued
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db


def test_what_nobody_signed_is_not_opened_again():
    shop = Shop()
    visit = shop.receive()
    events = LedgerEvent.objects.count()
    with pytest.raises(NothingToOpen, match="Identity and papers is not signed, and nothing signed rests on it"):
        reopen(operation=shop.operation(visit, "receive-case"), reason="look again", by=shop.inspector, at=shop.later())
    assert LedgerEvent.objects.count() == events


def test_a_joint_half_done_is_begun_anew_after_its_area_went_back():
    """Otherwise it would go on in the middle, on parts that were taken apart in between."""
    joint = Joint(replace(torqued(passes=ONE_PASS), stage="teardown"))
    joint.shop.advance(joint.visit, "case")
    joint.ready()
    joint.turn("1", "150")
    area = joint.shop.area(joint.visit, "case")
    send_back(
        area=area, before=area.stage, after="receiving", reason="a stud is bent", by=joint.shop.mechanic, at=joint.shop.later()
    )
    bolts = joint.shop.operation(joint.visit, "bolts")
    assert (bolts.round, bolts.signed_at) == (2, None)
    joint.shop.advance(joint.visit, "case")
    assert joint.ready()["try"] == "1"


def test_a_part_scrapped_in_the_stores_has_no_end_until_another_takes_its_place():
    shop = Shop()
    visit = shop.receive()
    shop.tag_all(visit)
    scrap_item(item=tagged_now(visit, "crankshaft", "engine").item, reason="dropped", by=shop.manager, at=shop.later())
    area = shop.area(visit, "case")
    area.stage = "repair"
    area.save()
    told = [each.sentence for each in blockers_of(situation_of(shop.area(visit, "case")))]
    assert "Crankshaft at engine has no end yet: it was scrapped, and none has taken its place." in told
