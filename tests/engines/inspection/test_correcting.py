"""A correction takes the place of the reading that counts now, of nothing else; a decision is about what counts now."""

import pytest

from engines.inspection.errors import Answered, CountsNoLonger, Scrapped
from engines.inspection.models import Discrepancy, Taken
from engines.inspection.services import decide
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.release.gates.done import decisions_carried_out
from engines.release.queries import situation_of
from engines.visits.services import Identity, tag_replacement
from measurements.readings.errors import CorrectedAlready
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
DATA = Data("T2-90 invented manual", "3", "page 4-4")
SKIRT, PLACE = "skirt-diameter", "cylinder 1"


@pytest.fixture
def shop():
    return Shop()


@pytest.fixture
def visit(shop):
    visit = shop.receive()
    shop.tag_all(visit, "cylinder", "piston")
    return visit


def correct(shop, visit, earlier, place=PLACE, value="4.3635"):
    return shop.read(visit, SKIRT, place, value, corrects=earlier, correction_reason="misread by a turn")


def decided(shop, visit, kind):
    found = Discrepancy.objects.get(visit=visit)
    return decide(discrepancy=found, kind=kind, data=DATA, words="as the data say", by=shop.inspector, at=shop.later())


def replaced(shop, visit):
    identity = Identity(mark="N-1")
    tag_replacement(visit=visit, line="piston", place=PLACE, identity=identity, words="new", by=shop.mechanic, at=shop.later())


def test_the_reading_that_counts_is_corrected_once(shop, visit):
    wrong = shop.read(visit, SKIRT, PLACE, "4.3500")
    right = correct(shop, visit, wrong)
    assert right.corrects == wrong
    with pytest.raises(CorrectedAlready):
        correct(shop, visit, wrong)


def of_another_place(shop, visit):
    return shop.read(visit, SKIRT, "cylinder 2", "4.3500")


def of_another_characteristic(shop, visit):
    return shop.read(visit, "barrel", PLACE, "4.3705", "4.3706", "4.3755", "4.3755")


def of_another_visit(shop, visit):
    other = shop.receive()
    shop.tag(other, "piston", PLACE, mark="other piston")
    return shop.read(other, SKIRT, PLACE, "4.3500")


def read_again_since(shop, visit):
    first = shop.read(visit, SKIRT, PLACE, "4.3500")
    shop.read(visit, SKIRT, PLACE, "4.3635")
    return first


def of_a_part_that_gave_way(shop, visit):
    first = shop.read(visit, SKIRT, PLACE, "4.3500")
    replaced(shop, visit)
    return first


def before_a_rework(shop, visit):
    first = shop.read(visit, SKIRT, PLACE, "4.3500")
    decided(shop, visit, Kind.REWORK)
    return first


@pytest.mark.parametrize(
    "no_longer",
    [
        of_another_place,
        of_another_characteristic,
        of_another_visit,
        read_again_since,
        of_a_part_that_gave_way,
        before_a_rework,
    ],
)
def test_a_reading_that_does_not_count_here_is_not_corrected(shop, visit, no_longer):
    earlier = no_longer(shop, visit)
    kept = Taken.objects.count()
    with pytest.raises(CountsNoLonger, match="is not the one that counts now for skirt-diameter at cylinder 1"):
        correct(shop, visit, earlier)
    assert Taken.objects.count() == kept


@pytest.mark.parametrize("again", ["read", "replaced"])
def test_what_no_longer_counts_is_not_decided_about(shop, visit, again):
    shop.read(visit, SKIRT, PLACE, "4.3500")
    shop.read(visit, SKIRT, PLACE, "4.3635") if again == "read" else replaced(shop, visit)
    with pytest.raises(Answered, match="read again, or another one is there"):
        decided(shop, visit, Kind.SCRAP)
    assert not visit.tagged.filter(item__scrapped_at__isnull=False)


def test_a_part_that_is_kept_after_all_is_not_waited_for(shop, visit):
    shop.read(visit, SKIRT, PLACE, "4.3500")
    decided(shop, visit, Kind.REPLACE)
    assert decisions_carried_out(situation_of(shop.area(visit, "cylinders")))
    shop.read(visit, SKIRT, PLACE, "4.3635")
    assert not decisions_carried_out(situation_of(shop.area(visit, "cylinders")))


def test_a_scrapped_part_is_not_read_again(shop, visit):
    shop.read(visit, SKIRT, PLACE, "4.3500")
    decided(shop, visit, Kind.SCRAP)
    with pytest.raises(Scrapped, match="Tag the part that takes its place"):
        shop.read(visit, SKIRT, PLACE, "4.3635")
