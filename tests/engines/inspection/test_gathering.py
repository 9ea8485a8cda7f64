"""What is gathered for some characteristics says of them what the whole engine says: after readings, decisions, corrections
and new parts alike."""

import pytest

from engines.inspection.facts import inspection_about, inspection_of
from engines.inspection.models import Discrepancy
from engines.inspection.services import decide
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.visits.services import Identity, tag_replacement
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
DATA = Data("T2-90 invented manual", "3", "page 4-4")
SKIRT, PLACE = "skirt-diameter", "cylinder 1"


@pytest.fixture
def shop():
    return Shop()


@pytest.fixture
def visit(shop):
    """Barrels and one skirt read, the other skirt outside its limits and decided away."""
    visit = shop.receive()
    shop.tag_all(visit, "cylinder", "piston", "crankshaft")
    for place in ("cylinder 1", "cylinder 2"):
        shop.read(visit, "barrel", place, "4.3705", "4.3706", "4.3755", "4.3755")
    shop.read(visit, "crank-main", "main 1", "2.1245")
    shop.read(visit, SKIRT, "cylinder 2", "4.3635")
    shop.read(visit, SKIRT, PLACE, "4.3500")
    return visit


def replaced(shop, visit):
    found = Discrepancy.objects.get(visit=visit, row=SKIRT)
    decide(discrepancy=found, kind=Kind.REPLACE, data=DATA, words="a new one", by=shop.inspector, at=shop.later())


def corrected(shop, visit):
    replaced(shop, visit)
    earlier = Discrepancy.objects.get(visit=visit, row=SKIRT).reading
    shop.read(visit, SKIRT, PLACE, "4.3635", corrects=earlier, correction_reason="misread by a turn")


def renewed(shop, visit):
    replaced(shop, visit)
    identity = Identity(mark="N-1")
    tag_replacement(visit=visit, line="piston", place=PLACE, identity=identity, words="new", by=shop.mechanic, at=shop.later())


@pytest.mark.parametrize("happens", [lambda shop, visit: None, replaced, corrected, renewed])
def test_a_part_of_it_says_what_the_whole_says(shop, visit, happens):
    happens(shop, visit)
    whole = inspection_of(visit)
    for name in {each.row for each in whole.rows.requirements}:
        mine = [each for each in whole.rows.requirements if each.row == name]
        some = inspection_about(visit, [name])
        assert [some.of(each) for each in mine] == [whole.of(each) for each in mine], name


def test_it_gathers_less(shop, visit, django_assert_num_queries):
    some = inspection_about(visit, [SKIRT])
    with django_assert_num_queries(7):  # tags, readings, whether anything went out, whether there are discrepancies, they with
        # their decisions and requests
        some.of(some.rows.by_key[SKIRT, PLACE])
    everything, here = ({each.row for each in found.taken.values()} for found in (inspection_of(visit), some))
    assert everything - here == {"crank-main", "crank-main-oor", "barrel-choke"}
