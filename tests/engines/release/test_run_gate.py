"""Nobody goes on from the stand without a passed run after which nothing was opened again."""

import pytest

from engines.release.gates.run import run_passed
from engines.release.queries import blockers_of, situation_of
from engines.release.services import send_back
from engines.testbench import services
from engines.traveler.models import Operation
from engines.traveler.services import reopen
from tests.making_runs import Stand
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db


def held(stand):
    return [each.sentence for each in run_passed(situation_of(stand.shop.area(stand.visit, "engine")))]


def test_an_engine_that_was_not_run_stays(client):
    stand = Stand(begun=False)
    assert held(stand) == ["The engine was not run on the stand yet."]
    area = stand.shop.area(stand.visit, "engine")
    about = {each.sentence: (each.about, each.key) for each in blockers_of(situation_of(area))}
    assert about["The engine was not run on the stand yet."] == ("run", stand.visit.pk)


def test_a_run_that_goes_on_or_did_not_pass_does_not_count():
    stand = Stand()
    assert held(stand) == ["Run 1 on the stand is going on."]
    services.break_off(run=stand.run, reason="rain", engine_at_fault=False, by=stand.by, at=stand.now)
    assert held(stand) == ["Run 1 on the stand did not pass (broken off): the engine is run anew."]


def test_a_passed_run_counts_until_an_area_is_opened_again():
    stand = Stand().passed()
    assert held(stand) == []
    cylinders = stand.shop.area(stand.visit, "cylinders")
    send_back(area=cylinders, before="assembly", after="repair", reason="a stud", by=stand.by, at=stand.shop.later())
    assert held(stand) == ["Run 1 on the stand passed, but something was opened again after it: the engine is run anew."]


def test_a_signature_of_assembly_that_becomes_void_after_the_run_voids_the_run():
    stand = Stand(begun=False, rigged=False)
    stand.shop.sign(stand.visit, "receive-case")
    stand.rig()
    stand.begin()
    stand.passed()
    rigged = stand.shop.operation(stand.visit, "rig")
    Operation.objects.filter(pk=rigged.pk).update(signed_by=stand.by, signed_at=stand.now)
    reopen(operation=rigged, reason="the rig is looked at again", by=stand.by, at=stand.shop.later())
    assert held(stand) == [], "nothing of the engine was opened"
    case = stand.shop.operation(stand.visit, "receive-case")
    reopen(operation=case, reason="the plate was misread", by=stand.by, at=stand.shop.later())
    assert "passed, but something was opened again" in held(stand)[0]


def test_data_without_a_schedule_ask_for_no_run():
    shop = Shop()
    assert run_passed(situation_of(shop.area(shop.receive(), "case"))) == []
