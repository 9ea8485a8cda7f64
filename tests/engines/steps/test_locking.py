"""Every fastener of a joint is locked, each seen for itself, and what disturbs the joint takes its locks with it.

That wire pulls towards tightening is FAA AC 43.13-1B, 7-124.
"""

import pytest

from engines.steps.kinds.locking import BAD, GOOD
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from tests.making_joints import CROSS, ONE_PASS, Joint, at_case, torqued, wrong_with

BOLTS = torqued(passes=ONE_PASS)
WIRE = {"joint": "bolts", "method": "wire", "material": "0.032 in"}


def locking(after=("bolts",), **changes):
    return at_case(code="wire", kind="locking", title="Case bolts wired", after=after, details=WIRE | changes)


def tightened(**changes):
    joint = Joint(BOLTS, locking(**changes), code="bolts")
    joint.all_turned(torques=("150",))
    joint.sign()
    joint.code = "wire"
    return joint


@pytest.mark.django_db
@pytest.mark.parametrize("method", ["wire", "tab", "cotter"])
def test_each_fastener_is_locked_by_itself_and_counted(method):
    joint = tightened(method=method)
    for fastener in CROSS[:3]:
        joint.enter(fastener=fastener, lies=GOOD[method])
    with pytest.raises(NotYet, match="3 of 4 fasteners are locked; open: 4"):
        joint.sign()
    joint.enter(fastener="4", lies=GOOD[method])
    assert joint.sign().is_complete


@pytest.mark.django_db
def test_a_wire_that_pulls_towards_loosening_is_kept_and_locks_nothing():
    joint = tightened()
    for fastener in CROSS:
        joint.enter(fastener=fastener, lies=BAD["wire"] if fastener == "2" else GOOD["wire"])
    with pytest.raises(NotYet, match="3 of 4 fasteners are locked; open: 2"):
        joint.sign()
    assert joint.enter(fastener="2", lies=GOOD["wire"])["verdict"] == "locked"
    assert joint.sign().is_complete
    assert joint.shop.operation(joint.visit, "wire").entries.count() == 5


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"fastener": "5"}, "Number 5 is no fastener of the joint"),
        ({"fastener": "1"}, "or is locked already"),
        ({"lies": "somehow"}, "Say how its wire lies"),
    ],
)
def test_a_lock_that_nobody_can_count_is_refused(given, said):
    joint = tightened()
    joint.enter(fastener="1", lies=GOOD["wire"])
    with pytest.raises(StepRefused, match=said):
        joint.enter(**{"fastener": "2", "lies": GOOD["wire"]} | given)


@pytest.mark.django_db
@pytest.mark.parametrize("is_signed", [True, False])
def test_a_disturbed_joint_loses_its_locks_and_their_signature(is_signed):
    joint = tightened()
    for fastener in CROSS if is_signed else CROSS[:2]:
        joint.enter(fastener=fastener, lies=GOOD["wire"])
    if is_signed:
        joint.sign()
    bolts = joint.shop.operation(joint.visit, "bolts")
    opened = reopen(operation=bolts, reason="a seal was renewed", by=joint.shop.inspector, at=joint.shop.later())
    assert [each.code for each in opened] == ["bolts", "wire"]
    with pytest.raises(NotYet, match="“Case bolts” must be complete first"):
        joint.enter(fastener="1", lies=GOOD["wire"])
    joint.code = "bolts"
    joint.all_turned(torques=("150",))
    joint.sign()
    joint.code = "wire"
    with pytest.raises(NotYet, match="0 of 4 fasteners are locked; open: 1, 2, 3, 4"):
        joint.sign()


@pytest.mark.django_db
def test_page_and_paper_show_which_are_locked(client):
    joint = tightened()
    joint.enter(fastener="3", lies=GOOD["wire"])
    shown = joint.page(client)
    assert 'aria-label="1, to do"' in shown
    assert 'value="3"' not in shown, "what is locked is not asked for again"
    for fastener in ("1", "2", "4"):
        joint.enter(fastener=fastener, lies=GOOD["wire"])
    assert "1 done, 2 done, 3 done, 4 done" in joint.page(client)
    assert joint.paper().count("<td>wire, 0.032 in</td>") == 4


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"joint": "nothing"}, "joint “nothing” is no torque-group or stretch-group of the route"),
        ({"joint": "receive-case"}, "joint “receive-case” is no torque-group"),
        ({"method": "glue"}, "method is wire or tab or cotter"),
        ({"material": ["a"]}, "material is one text"),
        ({"after": ()}, "it must be after “bolts”, or opening that again would leave its locks"),
        ({"colour": "red"}, "the kind locking knows no details “colour”"),
    ],
)
def test_locks_that_hang_on_no_joint_are_refused(changed, said):
    assert said in " / ".join(wrong_with(BOLTS, locking(**changed)))


def test_locks_after_their_joint_are_taken():
    assert wrong_with(BOLTS, locking()) == []
