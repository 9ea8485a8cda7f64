"""What an operation finds becomes a reason of the visit, and the operations for that reason are planned with it."""

import pytest

from engines.catalogue.queries import data_of
from engines.inspection.models import Discrepancy
from engines.traveler.models import Operation
from engines.visits.errors import FieldRefused
from engines.visits.models import Visit
from engines.visits.services import add_reason
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_gauges import make_tester
from tests.making_people import make_person
from tests.making_steps import stepped_pack
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop():
    return Shop(stepped_pack())


def look(shop, visit, verdict):
    shop.enter(visit, "look", spot=None, verdict=verdict, words="bright flakes", across=None, down=None)


def flushing(visit):
    return Operation.objects.filter(area__visit=visit, code="flush-lines")


def test_metal_in_the_filter_plans_what_is_done_about_metal(shop):
    visit = shop.receive()
    assert not flushing(visit).exists()
    look(shop, visit, "not accepted")
    assert Visit.objects.get(pk=visit.pk).reasons == ["time", "metal found"]
    planned = flushing(visit).get()
    codes = [each.code for each in data_of(visit.pack).operations]
    assert (planned.stage, planned.order) == ("final inspection", codes.index("flush-lines") + 1)
    assert Discrepancy.objects.get(visit=visit).words == "bright flakes (criterion: No metal.)"
    kinds = list(LedgerEvent.objects.filter(chain__startswith="engine:").order_by("-sequence").values_list("kind", flat=True)[:4])
    assert kinds[::-1] == ["discrepancy.raised", "entry.made", "visit.reason-added", "operation.planned"]
    assert [fault for fault in verify() if "people." not in fault.sentence] == []


def test_what_is_accepted_finds_nothing(shop):
    visit = shop.receive()
    look(shop, visit, "accepted")
    assert Visit.objects.get(pk=visit.pk).reasons == ["time"]
    assert not flushing(visit).exists()


def test_found_again_it_is_planned_once(shop):
    visit = shop.receive()
    look(shop, visit, "not accepted")
    look(shop, visit, "not accepted")
    assert flushing(visit).count() == 1
    assert LedgerEvent.objects.filter(kind="visit.reason-added").count() == 1


def test_a_cylinder_that_holds_too_little_finds_as_well(shop):
    make_tester(make_person(Role.STOREKEEPER), "C-1")
    visit = shop.receive()
    given = {"condition": "hot", "tester": "C-1", "heard": "the breather"}
    shop.enter(visit, "air", spot=None, reading="70", **given)
    assert not flushing(visit).exists()
    shop.enter(visit, "air", spot=("cylinder", "cylinder 1"), reading="20", **given)
    assert flushing(visit).exists()


def test_an_engine_received_with_metal_has_it_from_the_start(shop):
    assert flushing(shop.receive(reasons=("metal found",))).exists()


def test_a_reason_that_nobody_knows_is_refused(shop):
    visit = shop.receive()
    with pytest.raises(FieldRefused, match="Choose the reason, one of: time, propeller strike"):
        add_reason(visit=visit, reason="a mouse", by=shop.inspector, at=shop.later())
