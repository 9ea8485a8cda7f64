"""Looking, trying with a gauge, checking a fit: what is as it must be goes on, what is not goes before the inspector."""

from datetime import date

import pytest
from django.template.loader import get_template

from engines.inspection.models import Discrepancy
from engines.inspection.services import decide
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.release.queries import blockers_of, situation_of
from engines.steps.registry import STEPS, step_of
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet, SameHand, SignedAlready
from engines.traveler.services import reopen
from engines.traveler.work import work_on
from shopfloor.people.models import Role
from tests.making_gauges import make_tester
from tests.making_people import make_person
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
ONE, TWO = ("cylinder", "cylinder 1"), ("cylinder", "cylinder 2")
DATA = Data("T2-90 invented manual", "3", "page 4-4")


@pytest.fixture
def shop():
    keeper = make_person(Role.STOREKEEPER)
    make_tester(keeper, "L-1", "in")
    make_tester(keeper, "L-2", "in", due_on=date(2026, 2, 1))
    return Shop()


@pytest.fixture
def visit(shop):
    visit = shop.receive()
    shop.sign(visit, "receive-case")
    shop.sign(visit, "receive-cylinders")
    shop.advance(visit, "cylinders")
    shop.tag_all(visit, "cylinder", "piston")
    shop.sign(visit, "tag-cylinders")
    shop.advance(visit, "cylinders")
    shop.sign(visit, "clean-cylinders")
    shop.advance(visit, "cylinders")
    return visit


def look(shop, visit, spot, verdict="accepted", words=""):
    shop.enter(visit, "look-barrels", spot=spot, verdict=verdict, words=words, across=None, down=None)


def attempt(shop, visit, spot, result="go", gauge="L-1", words=""):
    shop.enter(visit, "gauge-flanges", spot=spot, result=result, gauge=gauge, words=words)


def held(shop, visit):
    return [each.sentence for each in blockers_of(situation_of(shop.area(visit, "cylinders")))]


def decided(shop, kind=Kind.ACCEPT):
    found = Discrepancy.objects.latest("number")
    return decide(discrepancy=found, kind=kind, data=DATA, words="as the data say", by=shop.inspector, at=shop.later())


class TestLooking:
    def test_every_part_is_looked_at_signed_and_accepted_by_another(self, shop, visit):
        look(shop, visit, ONE)
        with pytest.raises(NotYet, match="Cylinder, cylinder 2 was not looked at"):
            shop.sign(visit, "look-barrels")
        look(shop, visit, TWO)
        shop.sign(visit, "look-barrels", by=shop.inspector)
        with pytest.raises(SameHand):
            shop.accept(visit, "look-barrels")
        assert shop.accept(visit, "look-barrels", by=shop.second).is_complete

    def test_what_is_not_accepted_holds_the_area_until_it_is_decided(self, shop, visit):
        look(shop, visit, ONE, "not accepted", "score 40 mm long at 2 o'clock")
        words = "Cylinder, cylinder 1: score 40 mm long at 2 o'clock (criterion: No crack, no score that a fingernail catches.)"
        assert f"Discrepancy 1 is not decided: {words}" in held(shop, visit)
        decided(shop)
        assert not [each for each in held(shop, visit) if "Discrepancy" in each]

    def test_a_second_person_disputes_it_the_first_answer_stays_and_the_part_is_looked_at_anew(self, shop, visit):
        look(shop, visit, ONE)
        look(shop, visit, TWO)
        shop.sign(visit, "look-barrels")
        reopen(operation=shop.operation(visit, "look-barrels"), reason="I see a crack", by=shop.inspector, at=shop.later())
        with pytest.raises(NotYet, match="Cylinder, cylinder 1 was not looked at"):
            shop.sign(visit, "look-barrels")
        look(shop, visit, ONE, "not accepted", "crack at the fifth fin")
        assert [each.content["verdict"] for each in shop.operation(visit, "look-barrels").entries.all()] == [
            "accepted",
            "accepted",
            "not accepted",
        ]

    def test_the_form_asks_what_was_seen_and_proposes_no_answer(self, shop, visit):
        step, work = step_of("visual-finding"), work_on(visit, shop.operation(visit, "look-barrels"))
        form = step.form(work, {"spot": "cylinder|cylinder 1", "verdict": "not accepted", "words": ""})
        assert set(form.errors) == {"words"}
        assert step.form(work)["verdict"].value() is None


class TestTrying:
    def test_every_part_goes(self, shop, visit):
        attempt(shop, visit, ONE)
        with pytest.raises(NotYet, match="Cylinder, cylinder 2 was not tried"):
            shop.sign(visit, "gauge-flanges")
        attempt(shop, visit, TWO)
        assert shop.sign(visit, "gauge-flanges").is_complete
        assert {entry.content["certificate"] for entry in shop.operation(visit, "gauge-flanges").entries.all()} == {"C-2026-01"}
        with pytest.raises(SignedAlready):
            attempt(shop, visit, ONE)

    @pytest.mark.parametrize(
        ("gauge", "said"), [("L-2", "L-2 cannot be used: .* Take another"), ("L-9", "The register has no “L-9”")]
    )
    def test_a_gauge_that_proves_nothing_is_refused_and_nothing_is_kept(self, shop, visit, gauge, said):
        with pytest.raises(StepRefused, match=said):
            attempt(shop, visit, ONE, gauge=gauge)
        with pytest.raises(StepRefused, match=said):
            attempt(shop, visit, ONE, "no-go", gauge=gauge)
        assert not shop.operation(visit, "gauge-flanges").entries.exists()
        assert not Discrepancy.objects.exists()

    def test_a_no_go_is_brought_before_the_inspector_with_its_gauge(self, shop, visit):
        attempt(shop, visit, ONE, "no-go", words="the leaf enters at 3 o'clock")
        assert Discrepancy.objects.get().words == "Cylinder, cylinder 1: no-go with L-1. the leaf enters at 3 o'clock"
        assert [each for each in held(shop, visit) if each.startswith("Discrepancy 1 is not decided")]

    def test_tried_anew_after_a_no_go_the_decision_is_still_asked_for(self, shop, visit):
        attempt(shop, visit, ONE, "no-go", words="the leaf enters")
        attempt(shop, visit, ONE)
        attempt(shop, visit, TWO)
        shop.sign(visit, "gauge-flanges")
        assert [each for each in held(shop, visit) if each.startswith("Discrepancy 1 is not decided")]


class TestFits:
    def test_a_fit_is_checked_when_both_mates_are_read(self, shop, visit):
        shop.read(visit, "barrel", "cylinder 1", "4.3750")
        shop.read(visit, "barrel", "cylinder 2", "4.3750")
        shop.read(visit, "skirt-diameter", "cylinder 1", "4.3635")
        with pytest.raises(NotYet) as refused:
            shop.sign(visit, "fit-pistons")
        assert "piston-in-barrel at cylinder 2: both mates must be read first" in str(refused.value)

    def test_signing_never_makes_a_bad_fit_good(self, shop, visit):
        for place, skirt in (("cylinder 1", "4.3635"), ("cylinder 2", "4.3615")):
            shop.read(visit, "barrel", place, "4.3705", "4.3706", "4.3799", "4.3799")
            shop.read(visit, "skirt-diameter", place, skirt)
        assert [each for each in held(shop, visit) if "piston clearance at the skirt at cylinder 2 is outside limits" in each]


@pytest.mark.parametrize("name", STEPS)
def test_every_kind_has_its_caution_and_its_two_templates(name):
    step = step_of(name)
    assert step.caution.strip().endswith(".")
    assert get_template(step.template)
    assert get_template(step.paper)
