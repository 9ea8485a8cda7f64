"""A joint drops home by hand before its bolts, or nobody tightens them until an inspector has decided."""

from dataclasses import replace

import pytest

from engines.inspection.models import Discrepancy
from engines.inspection.services import decide
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from tests.making_joints import ONE_PASS, Joint, at_case, torqued, wrong_with

SEATED = at_case(code="seat", kind="hand-seated-joint", title="Case halves meet", details={"joint": "Case halves"})
BOLTS = torqued(passes=ONE_PASS, seated_by="seat")
HOME, NOT_HOME = {"seated": "dropped home", "why": ""}, {"seated": "did not drop home", "why": "a dowel stands proud at the rear"}


def seated():
    return Joint(SEATED, replace(BOLTS, after=("seat",)), code="seat")


@pytest.mark.django_db
def test_its_bolts_wait_until_it_dropped_home():
    joint = seated()
    with pytest.raises(NotYet, match="“Case halves meet” must be complete first"):
        joint.ready(code="bolts")
    with pytest.raises(NotYet, match="Case halves: nobody has seen it drop home without its bolts"):
        joint.sign()
    joint.enter(**HOME)
    joint.sign()
    assert joint.ready(code="bolts")["wrench"] == "W-1"


@pytest.mark.django_db
def test_what_does_not_drop_home_is_brought_before_the_inspector():
    joint = seated()
    with pytest.raises(StepRefused, match="Say why it does not drop home"):
        joint.enter(seated="did not drop home", why=" ")
    joint.enter(**NOT_HOME)
    found = Discrepancy.objects.get()
    assert found.words == "Case halves did not drop home by hand: a dowel stands proud at the rear"
    joint.enter(**HOME)
    with pytest.raises(NotYet, match="Discrepancy 1 is not decided"):
        joint.sign()
    data = Data(document="T2-90", revision="3", page="7-1")
    decide(
        discrepancy=found, kind=Kind.ACCEPT, data=data, words="dowel driven home", by=joint.shop.inspector, at=joint.shop.later()
    )
    assert joint.sign().is_complete


@pytest.mark.django_db
def test_it_is_said_once_and_not_both_ways():
    joint = seated()
    with pytest.raises(StepRefused, match="Leave one of them out"):
        joint.enter(seated="dropped home", why="nearly")
    joint.enter(**HOME)
    with pytest.raises(StepRefused, match="It dropped home already"):
        joint.enter(**HOME)


@pytest.mark.django_db
def test_a_joint_that_is_seated_again_is_bolted_again_even_when_half_done():
    joint = seated()
    joint.enter(**HOME)
    joint.sign()
    joint.ready(code="bolts")
    seat = joint.shop.operation(joint.visit, "seat")
    opened = reopen(operation=seat, reason="lifted for a seal", by=joint.shop.inspector, at=joint.shop.later())
    assert [(each.code, each.round) for each in opened] == [("seat", 2), ("bolts", 2)]
    with pytest.raises(NotYet, match="nobody has seen it drop home"):
        joint.sign()


@pytest.mark.django_db
def test_page_and_paper_tell_what_was_seen(client):
    joint = seated()
    assert "Nobody has seated it yet" in joint.page(client)
    joint.enter(**NOT_HOME)
    assert "did not drop home</b>: a dowel stands proud" in joint.page(client)
    assert "Case halves <b>did not drop home</b> without its bolts: a dowel stands proud at the rear" in joint.paper()


@pytest.mark.parametrize(("details", "said"), [({}, "joint is missing"), ({"joint": ["a"]}, "joint is one text")])
def test_a_joint_without_a_name_is_refused(details, said):
    assert wrong_with(at_case(code="seat", kind="hand-seated-joint", title="Seat", details=details)) == [said]


def test_bolts_that_do_not_come_after_it_are_refused():
    assert wrong_with(SEATED, BOLTS) == ["it must be after “seat”, which seats it"]
