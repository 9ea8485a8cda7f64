"""What one shift tells the next: what is begun, by whom, what is void when left, what runs, and which parts are out."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from engines.benches.queries.handover import WAITS, handed_over
from engines.traveler.services import reopen
from engines.visits.queries import visible_visits, with_areas
from shopfloor.people.models import Role
from tests.making_joints import ONE_PASS, Joint, torqued
from tests.making_people import AT, make_person
from tests.making_steps_s3 import Errand
from tests.making_visits import Shop
from tests.permission_rows.benches import to_inspection

pytestmark = pytest.mark.django_db
SEALANT = {"products": ["sealant C"], "places": ["case joint"], "open_minutes": "20"}
FRESH = {"product": "sealant C", "lot": "L-7", "use_by": AT.date() + timedelta(days=30)}
FIT = {
    "places": ["bushing 1"],
    "unit": "°F",
    "outer": {"part": "case", "least": "250", "greatest": "300"},
    "inner": {"part": "bushing", "greatest": "-40"},
    "seconds": "12.5",
    "check": "Flange on its seat all round.",
    "cold": {"greatest": "100"},
}


def left(shop, minutes=0):
    """What the next shift finds, by operation: who had it last, and what must be known."""
    visits = list(with_areas(visible_visits(shop.manager)))
    engines = handed_over(visits, shop.now + timedelta(minutes=minutes))
    return {each.operation.code: (each.by, each.notices) for engine in engines for area in engine.areas for each in area.begun}


def test_what_nobody_touched_is_not_handed_over():
    shop = Shop()
    shop.receive()
    assert left(shop) == {}


def test_a_half_done_joint_says_that_it_is_void_when_left():
    joint = Joint(torqued(passes=ONE_PASS, minutes="20"))
    joint.ready()
    joint.turn("1", "150")
    by, notices = left(joint.shop)["bolts"]
    assert by == joint.shop.mechanic.name
    assert notices[0].startswith("Half done, 2 of 5 steps: left, it is void.")
    assert "or when 20 minutes pass between two fasteners" in notices[0]
    assert left(joint.shop, minutes=21)["bolts"][1] == [
        "Void: more than 20 minutes passed between two fasteners. Slacken every fastener and begin again."
    ]


def test_a_joint_all_tightened_waits_for_the_hand_that_did_it():
    joint = Joint(torqued(passes=ONE_PASS))
    joint.all_turned(torques=("150",))
    assert left(joint.shop)["bolts"][1] == ["Every fastener is done. Only who tightened it signs it; disturbed, it is void."]
    joint.sign()
    assert "bolts" not in left(joint.shop)


def test_a_joint_that_another_hand_went_on_with_is_void():
    joint = Joint(torqued(passes=ONE_PASS))
    joint.ready()
    joint.turn("1", "150")
    joint.enter(joint.other, void_reason="the shift changed")
    by, notices = left(joint.shop)["bolts"]
    assert by == joint.other.name
    assert notices == ["Void: the shift changed. Slacken every fastener and begin again."]


def test_a_sealant_runs_down_and_one_that_is_late_says_so():
    work = Errand("lubricate-or-seal", SEALANT)
    work.answer(**FRESH)
    assert left(work.shop)["asked"][1][0].startswith("case joint: the sealant stands open. Close it by ")
    assert "Do not close it" in left(work.shop, minutes=21)["asked"][1][0]
    work.answer(answer="cleaned off, to be put on anew")
    assert left(work.shop)["asked"][1] == ["case joint: cleaned off, not put on anew."]
    work.answer(**FRESH)
    work.answer(answer="closed")
    assert left(work.shop)["asked"][1] == []


@pytest.mark.parametrize(
    ("answers", "said"),
    [
        (("275",), ["bushing 1: “outer part” came last and was as asked. What is warm or cold does not wait."]),
        (("200",), ["bushing 1: “outer part” came last and was not as asked. What is warm or cold does not wait."]),
        (
            ("275", "-60", "13"),
            [
                "bushing 1: “seconds” came last and was not as asked. "
                "It is before the inspector, or is begun again with both temperatures."
            ],
        ),
        (("275", "-60", "10", "seated", "80", "seated"), []),
    ],
)
def test_a_fit_in_progress_says_how_far_it_came(answers, said):
    work = Errand("heat-or-chill-fit", FIT)
    for each in answers:
        work.answer(answer=each)
    assert left(work.shop)["asked"][1] == said


def test_readings_begun_and_a_hold_point_not_accepted_are_handed_over():
    shop = Shop()
    visit = shop.receive()
    to_inspection(shop, visit)
    shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
    assert left(shop) == {"look-crankshaft": (shop.mechanic.name, [])}
    shop.sign(visit, "look-crankshaft")
    assert left(shop) == {"look-crankshaft": (shop.mechanic.name, [WAITS])}
    shop.accept(visit, "look-crankshaft")
    assert left(shop) == {}
    shop.read(visit, "crank-main", "main 1", "2.4990")
    assert left(shop)["read-mains"][0] == shop.mechanic.name


def test_what_was_entered_before_it_was_opened_again_is_nobodys():
    shop = Shop()
    visit = shop.receive()
    to_inspection(shop, visit)
    shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
    shop.sign(visit, "look-crankshaft")
    reopen(operation=shop.operation(visit, "look-crankshaft"), reason="look again", by=shop.inspector, at=shop.later())
    assert left(shop) == {}


def test_the_page_names_trays_and_hands_and_stands_on_the_first_pages(client):
    shop = Shop()
    visit = shop.receive()
    to_inspection(shop, visit)
    shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
    client.force_login(shop.second)
    page = " ".join(client.get(reverse("benches:handover")).content.decode().split())
    assert f'tray <span class="stamp">tray-{visit.number}</span> 2 parts' in page
    assert f"<b>{shop.mechanic.name}</b>" in page
    for role in (Role.MANAGER, Role.MECHANIC):
        client.force_login(make_person(role))
        assert reverse("benches:handover") in client.get("/").content.decode()


def test_it_costs_the_same_for_one_engine_and_for_many(client):
    joint = Joint(torqued(passes=ONE_PASS))
    client.force_login(joint.shop.mechanic)

    def begin(visit):
        joint.visit = visit
        joint.ready()
        joint.turn("1", "150")
        joint.shop.tag(visit, "crankshaft", "engine", mark=f"CR-{visit.number}")

    def cost():
        with CaptureQueriesContext(connection) as queries:
            page = client.get(reverse("benches:handover")).content.decode()
        return page.count("Half done"), len(queries)

    begin(joint.visit)
    cost()
    one, many = cost(), [begin(joint.shop.receive()) for _ in range(8)]
    assert cost() == (len(many) + one[0], one[1])
    assert one[1] <= 12
