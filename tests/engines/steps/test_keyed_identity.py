"""Numbered parts go home, or an exchange is kept, decided about and accepted by a second person."""

import pytest

from engines.inspection.facts import inspection_of
from engines.inspection.models import Discrepancy
from engines.inspection.standing import State
from engines.packs.reading import PackMistakes, pack_of
from engines.parts.errors import AlreadyFitted
from engines.parts.queries import fitted_now
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet, SameHand
from engines.traveler.services import reopen
from engines.visits.queries import tagged_by_spot
from tests.making_steps import stepped_pack
from tests.making_visits import Shop
from tests.pack_files import files_of

ONE, TWO = ("piston", "cylinder 1"), ("piston", "cylinder 2")


@pytest.fixture
def shop():
    return Shop(stepped_pack())


@pytest.fixture
def visit(shop):
    visit = shop.receive()
    shop.tag(visit, *ONE, mark="P-1")
    shop.tag(visit, *TWO, mark="P-2")
    return visit


def read_at(shop, visit, spot, identity, reason=""):
    shop.enter(visit, "home", spot=spot, identity=identity, way_up=True, reason=reason)


@pytest.mark.django_db
def test_each_part_goes_home_and_is_fitted_there(shop, visit):
    read_at(shop, visit, ONE, "P-1")
    with pytest.raises(NotYet, match="Piston, cylinder 2: nobody read which part is fitted"):
        shop.sign(visit, "home")
    read_at(shop, visit, TWO, "P-2")
    shop.sign(visit, "home")
    assert {spot: each.item.serial for spot, each in fitted_now(visit.engine.item).items()} == {ONE: "P-1", TWO: "P-2"}
    assert not Discrepancy.objects.exists()


@pytest.mark.django_db
def test_the_part_of_another_position_is_refused(shop, visit):
    with pytest.raises(StepRefused, match="Piston P-2 does not belong here, but Piston P-1"):
        read_at(shop, visit, ONE, "P-2")
    assert not fitted_now(visit.engine.item)


@pytest.mark.django_db
@pytest.mark.parametrize("identity", ["P-3", "", "cylinder-cylinder 1"])
def test_a_part_that_nobody_tagged_is_refused(shop, visit, identity):
    shop.tag(visit, "cylinder", "cylinder 1")
    with pytest.raises(StepRefused, match=f"No Piston of this engine is tagged “{identity}”"):
        read_at(shop, visit, ONE, identity)


@pytest.mark.django_db
def test_an_exchange_is_brought_before_the_inspector_and_takes_a_second_person(shop, visit):
    read_at(shop, visit, ONE, "P-2", "lighter by two grams, as the data allow")
    read_at(shop, visit, TWO, "P-1")
    told = Discrepancy.objects.order_by("number").first()
    assert (told.area, told.line, told.at) == ("cylinders", *ONE)
    assert told.words.endswith(
        "Piston P-2 is fitted in place of Piston P-1, which belongs to cylinder 2 from now on. "
        "lighter by two grams, as the data allow"
    )
    shop.sign(visit, "home", by=shop.inspector)
    with pytest.raises(SameHand):
        shop.accept(visit, "home")
    assert not shop.operation(visit, "home").is_complete
    shop.accept(visit, "home", by=shop.second)
    accepted = shop.operation(visit, "home").signatures.get(act="accepted")
    assert accepted.signed_by == shop.second
    assert "lighter by two grams" in accepted.shown


@pytest.mark.django_db
def test_after_an_exchange_both_parts_are_read_again_and_their_fits_are_made_anew(shop, visit):
    """The clearance of a piston in another barrel is another clearance."""
    shop.tag_all(visit, "cylinder")
    for place, barrel in (("cylinder 1", "4.3750"), ("cylinder 2", "4.3760")):
        shop.read(visit, "barrel", place, barrel)
        shop.read(visit, "skirt-diameter", place, "4.3635")
    assert clearances(visit) == {"cylinder 1": State.GOOD, "cylinder 2": State.GOOD}
    read_at(shop, visit, ONE, "P-2", "lighter by two grams, as the data allow")
    assert clearances(visit) == {"cylinder 1": State.MISSING, "cylinder 2": State.MISSING}
    shop.read(visit, "skirt-diameter", "cylinder 1", "4.3630")
    shop.read(visit, "skirt-diameter", "cylinder 2", "4.3635")
    now = inspection_of(visit)
    assert clearances(visit) == {"cylinder 1": State.GOOD, "cylinder 2": State.GOOD}
    fit = now.reading_of(now.of(now.rows.by_key["piston-in-barrel", "cylinder 1"]))
    assert now.taken[fit.inner_id].item.serial == "P-2"


@pytest.mark.django_db
def test_exchanged_and_back_again_each_part_is_at_one_position(shop, visit):
    """Exchanged one after the other, opened again and exchanged back: nobody is at two places, and none is lost."""
    read_at(shop, visit, ONE, "P-2", "balance")
    read_at(shop, visit, TWO, "P-1")
    shop.sign(visit, "home")
    reopen(operation=shop.operation(visit, "home"), reason="wrong balance", by=shop.inspector, at=shop.later())
    read_at(shop, visit, ONE, "P-1", "back again")
    read_at(shop, visit, TWO, "P-2")
    assert {spot: tag.item.serial for spot, tag in tagged_by_spot(visit).items()} == {ONE: "P-1", TWO: "P-2"}
    assert {spot: each.item.serial for spot, each in fitted_now(visit.engine.item).items()} == {ONE: "P-1", TWO: "P-2"}


def clearances(visit):
    now = inspection_of(visit)
    keys = (("piston-in-barrel", place) for place in ("cylinder 1", "cylinder 2"))
    return {place: now.of(now.rows.by_key[row, place]).state for row, place in keys}


@pytest.mark.django_db
def test_a_part_is_not_put_into_two_places(shop, visit):
    read_at(shop, visit, ONE, "P-1")
    with pytest.raises(AlreadyFitted):
        read_at(shop, visit, TWO, "P-1", "by mistake")
    assert shop.operation(visit, "home").entries.count() == 1


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"hold_point": False}, "it is no hold point, so nobody could accept an exchange"),
        ({"names": ("gasket",)}, "“gasket” has no identity that could go home"),
        ({"details": {"way_up": ["front"]}}, "way_up is one text"),
        ({"details": {"colour": "red"}}, "the kind keyed-identity knows no details “colour”"),
    ],
)
def test_data_that_name_no_home_are_refused(changed, said):
    with pytest.raises(PackMistakes, match=said):
        pack_of({name: text.encode() for name, text in files_of(stepped_pack(**changed)).items()})
