"""One engine from receiving to the end of repair, as the rules want it."""

import pytest

from engines.inspection.facts import inspection_of
from engines.inspection.models import Discrepancy
from engines.inspection.services import decide
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.release.errors import Held
from engines.release.queries import blockers_of, situation_of
from engines.visits.services import Identity, tag_replacement
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_gauges import make_tester
from tests.making_people import make_person
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
DATA = Data("T2-90 invented manual", "3", "page 4-4")


@pytest.fixture
def shop():
    make_tester(make_person(Role.STOREKEEPER), "L-1", "in")
    return Shop()


def held(shop, visit, code):
    return [each.sentence for each in blockers_of(situation_of(shop.area(visit, code)))]


def to_inspection(shop, visit, code):
    name = {"case": "case", "cylinders": "cylinders"}[code]
    shop.sign(visit, f"receive-{name}")
    shop.advance(visit, code)
    shop.tag_all(visit, *(("crankshaft", "case-half") if code == "case" else ("cylinder", "piston")))
    shop.sign(visit, f"tag-{name}")
    shop.advance(visit, code)
    shop.sign(visit, f"clean-{name}")
    shop.advance(visit, code)


def inspect_cylinders(shop, visit):
    for place in ("cylinder 1", "cylinder 2"):
        shop.enter(visit, "look-barrels", spot=("cylinder", place), verdict="accepted", words="", across=None, down=None)
        shop.enter(visit, "gauge-flanges", spot=("cylinder", place), result="go", gauge="L-1", words="")
    shop.sign(visit, "look-barrels")
    shop.accept(visit, "look-barrels")
    shop.sign(visit, "gauge-flanges")


def test_nothing_undecided_passes(shop):
    visit = shop.receive()
    with pytest.raises(Held, match="one thing holds"):
        shop.advance(visit, "case")
    to_inspection(shop, visit, "case")
    to_inspection(shop, visit, "cylinders")
    inspect_cylinders(shop, visit)
    shop.read(visit, "barrel", "cylinder 1", "4.3705", "4.3706", "4.3755", "4.3755")
    shop.read(visit, "barrel", "cylinder 2", "4.3705", "4.3706", "4.3755", "4.3755")
    shop.read(visit, "skirt-diameter", "cylinder 1", "4.3635")
    shop.read(visit, "skirt-diameter", "cylinder 2", "4.3500")
    assert [each.words.partition(":")[0] for each in Discrepancy.objects.order_by("number")] == [
        "Piston, skirt diameter at cylinder 2",
        "Piston, piston clearance at the skirt at cylinder 2",
    ]
    shop.sign(visit, "read-barrels")
    shop.sign(visit, "fit-pistons")
    assert len(held(shop, visit, "cylinders")) == 2
    skirt = Discrepancy.objects.get(number=1)
    fit = Discrepancy.objects.get(number=2)
    decide(discrepancy=skirt, kind=Kind.REPLACE, data=DATA, words="worn out", by=shop.inspector, at=shop.later())
    decide(
        discrepancy=fit, kind=Kind.REPLACE, data=DATA, words="worn out", mate="skirt-diameter", by=shop.inspector, at=shop.later()
    )
    assert held(shop, visit, "cylinders") == []
    shop.advance(visit, "cylinders")
    shop.sign(visit, "repair-cylinders")
    assert held(shop, visit, "cylinders") != []
    tag_replacement(
        visit=visit,
        line="piston",
        place="cylinder 2",
        identity=Identity(mark="N-2"),
        words="new",
        by=shop.mechanic,
        at=shop.later(),
    )
    shop.read(visit, "skirt-diameter", "cylinder 2", "4.3632")
    assert held(shop, visit, "cylinders") == []
    shop.advance(visit, "cylinders")
    assert [fault for fault in verify() if "people." not in fault.sentence] == []
    assert inspection_of(visit)
