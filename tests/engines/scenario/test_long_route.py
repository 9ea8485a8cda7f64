"""The long route of the invented F6-240, from receiving to the crate with every kind of step; the crew can walk it."""

import re
from dataclasses import replace
from itertools import chain

import pytest
from django.utils import timezone

from engines.catalogue.data import ENGINE, stages_of
from engines.packs.reading import read_pack
from engines.scenario.chapters.engines import ALL, ENGINES, tell
from engines.scenario.chapters.packs import DATA
from engines.scenario.saying import nobody
from engines.scenario.services import load_scenario
from engines.scenario.story import CHAPTERS
from engines.scenario.telling.crew import Crew
from engines.steps.registry import STEPS
from engines.traveler.models import Entry, Operation
from engines.visits.models import Visit
from shopfloor.ledger.queries import verify

DISTINCT = 70


@pytest.fixture(scope="module")
def pack():
    return read_pack(DATA / "f6-240")


@pytest.fixture
def before_the_engines(monkeypatch, settings, transactional_db):
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    monkeypatch.setattr("engines.scenario.services.CHAPTERS", CHAPTERS[:-1])
    load_scenario(at=timezone.now())


def test_it_has_enough_operations_that_are_not_one_and_the_same_at_another_cylinder(pack):
    always = [each for each in pack.operations if not each.reasons]
    assert len({re.sub(r"\d+", "n", each.title) for each in always}) >= DISTINCT
    assert len({each.title for each in pack.operations}) == len(pack.operations)


def test_every_kind_of_step_is_on_it(pack):
    assert {each.kind for each in pack.operations} == set(STEPS)


def test_every_area_goes_through_every_stage(pack):
    assert set(pack.area_by_code) == {*ALL, ENGINE}
    wanted = {(area, stage) for area in pack.area_by_code for stage in stages_of(area)}
    assert {(each.area, each.stage) for each in pack.operations} == wanted


def test_every_line_of_the_parts_list_is_put_back_by_an_operation(pack):
    fitted = (each.names for each in pack.operations if STEPS[each.kind].moves_parts and each.stage in ("assembly", "close-up"))
    assert {line.line for line in pack.lines} <= set(chain.from_iterable(fitted))


def test_it_says_that_it_is_invented(pack):
    assert {source.document.rpartition(" ")[2] for source in pack.sources} == {"(invented)"}
    assert pack.label == "demonstration data: not for any real engine"


@pytest.mark.timeout(400)
def test_the_crew_walks_it_from_receiving_to_release(monkeypatch, before_the_engines):
    def through(crew: Crew) -> None:
        crew.bring("inspection", *ALL)
        crew.bring("repair", *ALL)
        crew.close_up()
        crew.run().end()
        crew.release("Overhauled by the data of this visit.")

    first = next(each for each in ENGINES if each.model == "F6-240")
    monkeypatch.setattr("engines.scenario.chapters.engines.ENGINES", [replace(first, days_ago=40, tell=through)])
    tell(timezone.now(), nobody)
    visit = Visit.objects.get()
    assert visit.closed_at
    assert all(each.is_complete for each in Operation.objects.filter(area__visit=visit))
    assert not Entry.objects.filter(text__contains='"void"').exists()
    assert list(verify()) == []
