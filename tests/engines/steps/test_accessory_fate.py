"""What becomes of each accessory is said once and agrees with the tags. Everything here is invented."""

import pytest

from engines.packs.reading import PackMistakes
from engines.parts.services import add_item
from engines.release.gates.parts import every_part_accounted_for
from engines.release.queries import situation_of
from engines.steps.kinds.accessory_fate import EXCHANGED, FATES, HERE, NOT_RECEIVED, UNTOUCHED, VENDOR
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.visits.services import tag_part, tag_replacement
from tests.making_steps_s3 import Errand, load

pytestmark = pytest.mark.django_db
PERMITTED = {"permitted": {"piston": [*FATES]}}
FIRST, SECOND = "Piston, cylinder 1", "Piston, cylinder 2"


@pytest.fixture
def errand():
    """The first accessory came with the engine, the second did not."""
    work = Errand("accessory-fate", PERMITTED, names=("piston",))
    work.shop.tag(work.visit, "piston", "cylinder 1")
    not_there(work)
    return work


def say(work, fate, paper="T-7"):
    return work.answer(answer=fate, paper=paper)


def of_pistons(work):
    area = work.visit.areas.get(code="cylinders")
    area.visit.areas.update(stage="repair")
    area.refresh_from_db()
    return [each.sentence for each in every_part_accounted_for(situation_of(area)) if "Piston" in each.sentence]


def test_each_gets_its_fate_and_then_it_is_signed(errand, client):
    assert errand.question() == FIRST
    assert say(errand, HERE)["fate"] == HERE
    assert errand.missing() == [f"{SECOND}: nobody has said what becomes of it."]
    with pytest.raises(NotYet):
        errand.sign()
    assert say(errand, NOT_RECEIVED, "")["item"] == ""
    errand.sign()
    assert all(words in errand.page(client) for words in (HERE, "T-7", NOT_RECEIVED))
    assert NOT_RECEIVED in errand.paper()


def test_what_was_not_there_has_no_other_fate_and_what_was_there_was_received(errand):
    with pytest.raises(StepRefused, match="is on record as"):
        say(errand, NOT_RECEIVED)
    say(errand, VENDOR)
    with pytest.raises(StepRefused, match="was not there when the engine was stripped"):
        say(errand, UNTOUCHED)


def test_an_exchange_has_its_new_part_and_only_that(errand):
    with pytest.raises(StepRefused, match="No other part has taken its place"):
        say(errand, EXCHANGED)
    replace_the_first(errand)
    with pytest.raises(StepRefused, match="Another part has taken its place"):
        say(errand, HERE)
    assert "X-1" in say(errand, EXCHANGED)["item"]


def test_a_fate_goes_with_the_part_that_it_was_said_of(errand):
    say(errand, HERE)
    say(errand, NOT_RECEIVED, "")
    replace_the_first(errand)
    assert errand.missing() == [f"{FIRST}: nobody has said what becomes of it."]


def test_work_done_elsewhere_names_its_paper(errand):
    with pytest.raises(StepRefused, match="number of the tag, order or certificate"):
        say(errand, VENDOR, " ")
    assert say(errand, UNTOUCHED, "")["paper"] == ""


def test_only_what_the_data_permit_is_offered():
    work = Errand("accessory-fate", {"permitted": {"piston": [VENDOR]}}, names=("piston",))
    work.shop.tag(work.visit, "piston", "cylinder 1")
    with pytest.raises(StepRefused, match="Choose one of"):
        say(work, HERE)


def test_one_that_was_never_received_is_accounted_for_when_that_is_signed(errand):
    gone = "Piston at cylinder 2 has no end yet: it was not there, and none has taken its place."
    assert of_pistons(errand) == [gone]
    errand.visit.areas.update(stage="receiving")
    errand.visit.areas.filter(code="engine").update(stage="close-up")
    say(errand, HERE)
    say(errand, NOT_RECEIVED, "")
    assert of_pistons(errand) == [gone], "not signed yet"
    errand.visit.areas.filter(code="engine").update(stage="close-up")
    errand.sign()
    assert of_pistons(errand) == []


def test_what_never_came_is_not_asked_for_when_the_rest_is_fitted():
    work = Errand("install-item", {}, names=("piston",))
    work.shop.tag(work.visit, "piston", "cylinder 1")
    not_there(work)
    assert work.missing() == [f"{FIRST} is not fitted."]


@pytest.mark.parametrize(
    ("details", "told"),
    [
        ({}, "permitted says for each of its parts"),
        ({"permitted": {"cylinder": [HERE]}}, "permitted says for each of its parts"),
        ({"permitted": {"piston": ["thrown away"]}}, "the fates of “piston” are of these"),
        ({"permitted": {"piston": []}}, "the fates of “piston” are of these"),
        ({**PERMITTED, "more": "x"}, "knows no details “more”"),
    ],
)
def test_a_pack_that_leaves_it_open_is_refused(details, told):
    with pytest.raises(PackMistakes, match=told):
        load("accessory-fate", details, names=("piston",))


def replace_the_first(errand):
    by, at = errand.shop.mechanic, errand.shop.later()
    item = add_item(part_number="T2-201", name="Piston", serial="", mark="X-1", tracking="mark", origin="booked in", by=by, at=at)
    tag_replacement(visit=errand.visit, line="piston", place="cylinder 1", item=item, words="exchanged", by=by, at=at)


def not_there(work):
    tag_part(
        visit=work.visit,
        line="piston",
        place="cylinder 2",
        identity=None,
        tray="",
        as_found="kept by the owner",
        by=work.shop.mechanic,
        at=work.shop.later(),
    )
