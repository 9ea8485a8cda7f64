"""A run from pre-oil to its end: passed, failed, broken off, too short, with something missing."""

import pytest
from django.db import IntegrityError, transaction

from engines.inspection.models import Discrepancy
from engines.testbench import services
from engines.testbench.errors import (
    FieldRefused,
    NoSchedule,
    NotComplete,
    NotInTest,
    RunEnded,
    RunGoesOn,
    SeenOtherwise,
    StepNotGoing,
    StepRefused,
)
from engines.testbench.models import Run
from engines.testbench.queries import runs
from shopfloor.ledger.queries import verify
from tests.making_packs import small_pack
from tests.making_runs import Stand
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def stand():
    return Stand()


def kept(stand):
    return runs().get(pk=stand.run.pk)


def stages(stand):
    return {area.code: area.stage for area in stand.visit.areas.all()}


def test_a_run_with_everything_there_and_good_passes():
    stand = Stand(moved=True).passed()
    run = kept(stand)
    assert (run.passed, run.outcome, run.ended_by, run.number) == (True, "passed", stand.by, 1)
    assert stages(stand) == {"case": "assembly", "cylinders": "assembly", "engine": "test"}
    assert not Discrepancy.objects.exists()
    assert [fault for fault in verify() if "people." not in fault.sentence] == []


def test_a_step_never_begun_and_one_too_short_are_named(stand):
    stand.hold_all("pre-oil", "warm")
    stand.hold("full", minutes=9.75)
    with pytest.raises(NotComplete) as refused:
        stand.end()
    assert "Full power: held ≈ 9.8 of 10 minutes without a break." in refused.value.missing
    assert "Magnetos: not begun; it is held for 0.5 minutes." in refused.value.missing
    with pytest.raises(StepRefused, match="Full power comes before it and must be held for 10 minutes first"):
        stand.begin_step("magnetos")


def test_a_step_that_was_interrupted_begins_anew(stand):
    stand.hold_all("pre-oil", "warm")
    for minutes in (6, 6):
        stand.hold("full", minutes=minutes)
    assert not stand.standing().standing.is_held(stand.standing().schedule.step_by_code["full"])
    stand.hold("full", minutes=10)
    stand.begin_step("magnetos")


@pytest.mark.parametrize("lacking", [{"but": "oil pressure"}, {"oil_pressure": "19.9"}, {"minutes": 1.9}])
def test_nothing_turns_before_the_oil_is_there(stand, lacking):
    stand.hold("pre-oil", **lacking)
    with pytest.raises(StepRefused, match="Before the engine turns, Pre-oil must be complete"):
        stand.begin_step("warm")


def test_outside_a_limit_at_the_end_it_fails_with_a_discrepancy_that_says_so(stand):
    stand.hold_all(oil_temperature="200.1")
    run = stand.end()
    assert (run.passed, run.outcome) == (False, "failed")
    assert "Warm up: oil temperature was 200.1 °F, to be 100 to 200 °F." in Discrepancy.objects.get().words
    assert stages(stand) == {"case": "assembly", "cylinders": "repair", "engine": "close-up"}


def test_the_last_reading_at_a_step_counts(stand):
    stand.begin_step("pre-oil")
    stand.read("pre-oil", oil_pressure="15")
    stand.wait(2)
    stand.read("pre-oil", oil_pressure="30")
    stand.end_step("pre-oil")
    assert stand.standing().standing.outside == []


def test_an_answer_of_no_fails_the_run_and_needs_words(stand):
    stand.hold_all()
    with pytest.raises(FieldRefused, match="what was seen"):
        stand.answer("no-leak", yes=False)
    stand.answer("no-leak", yes=False, words="oil at the rear joint")
    assert stand.end().outcome == "failed"
    assert "“No leak at any joint” was answered no" in Discrepancy.objects.get().words


def test_beyond_an_abort_limit_the_run_is_ended_at_once():
    stand = Stand(moved=True)
    stand.hold_all("pre-oil", "warm")
    stand.begin_step("full")
    stand.read("full", cylinder_temperature="500")
    assert kept(stand).ended_at is None
    stand.read("full", cylinder_temperature="500.1")
    run = kept(stand)
    assert (run.outcome, run.ended_at, run.spans.filter(ended_at=None).count()) == ("failed", stand.now, 0)
    assert "cylinder temperature, cylinder 1 was 500.1 °F" in run.why
    assert stages(stand)["engine"] == "close-up"
    with pytest.raises(RunEnded):
        stand.read("full", oil_pressure="70")
    assert [fault for fault in verify() if "people." not in fault.sentence] == []


def test_a_failed_run_voids_the_signatures_of_the_areas_that_the_data_name():
    stand = Stand(begun=False, rigged=False)
    stand.shop.sign(stand.visit, "receive-cylinders")
    stand.rig()
    stand.begin()
    services.break_off(run=stand.run, reason="a knock", engine_at_fault=True, by=stand.by, at=stand.shop.later())
    cylinders, receiving = stand.shop.area(stand.visit, "cylinders"), stand.shop.operation(stand.visit, "receive-cylinders")
    assert (cylinders.stage, receiving.round) == ("repair", 1), "only what comes from repair on is opened again"
    assert "a knock" in cylinders.moves.get(before="assembly").reason
    assert "a knock" in Discrepancy.objects.get().words


def test_a_run_broken_off_for_another_reason_opens_nothing_and_another_may_begin(stand):
    stand.begin_step("pre-oil")
    services.break_off(run=stand.run, reason="a thunderstorm", engine_at_fault=False, by=stand.by, at=stand.shop.later())
    assert (kept(stand).outcome, stages(stand)["engine"], Discrepancy.objects.count()) == ("broken off", "test", 0)
    assert stand.begin().number == 2


def test_breaking_off_needs_a_reason(stand):
    with pytest.raises(FieldRefused, match="why"):
        services.break_off(run=stand.run, reason=" ", engine_at_fault=False, by=stand.by, at=stand.now)
    assert kept(stand).ended_at is None


def test_what_was_not_seen_is_not_signed(stand):
    stand.hold_all()
    seen = stand.seen()
    stand.answer("no-leak", yes=False, words="a drop at the sump")
    with pytest.raises(SeenOtherwise):
        services.end_run(run=stand.run, seen_sha256=seen, by=stand.by, at=stand.now)


def test_a_run_is_not_ended_in_the_middle_of_a_step(stand):
    stand.begin_step("pre-oil")
    with pytest.raises(StepRefused, match="Pre-oil is still going"):
        stand.end()


def test_one_run_and_one_step_at_a_time_also_for_the_database(stand):
    with pytest.raises(RunGoesOn):
        services.begin_run(visit=stand.visit, by=stand.by, at=stand.now)
    with pytest.raises(IntegrityError), transaction.atomic():
        Run.objects.create(visit=stand.visit, number=2, begun_by=stand.by, begun_at=stand.now)
    stand.begin_step("pre-oil")
    with pytest.raises(StepRefused, match="Pre-oil is going on"):
        stand.begin_step("pre-oil")


def test_a_reading_belongs_to_the_step_that_is_going(stand):
    with pytest.raises(StepNotGoing):
        stand.read("pre-oil", oil_pressure="30")
    stand.begin_step("pre-oil")
    with pytest.raises(StepNotGoing):
        stand.read("warm", oil_pressure="30")


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ({"oil pressure": "thirty"}, "not a number"),
        ({"oil pressure": "30 °F"}, "check the unit"),
        ({"oil pressure": "30 bananas"}, "not known"),
        ({"tea temperature": "30"}, "no channel of this stand"),
        ({"oil left": "3"}, "for the run as a whole"),
        ({}, "Nothing was entered"),
    ],
)
def test_a_mistyped_value_is_refused_and_nothing_of_the_form_is_kept(stand, values, told):
    stand.begin_step("pre-oil")
    with pytest.raises(FieldRefused, match=told):
        stand.read_all("pre-oil", {**({"oil temperature": "80"} if values else {}), **values})
    assert not stand.run.readings.exists()


def test_a_correction_keeps_the_earlier_value_and_counts_instead(stand):
    stand.begin_step("pre-oil")
    stand.read("pre-oil", oil_pressure="13")
    wrong = stand.run.readings.get()
    made = services.correct(reading=wrong, value="31", reason="read upside down", by=stand.by, at=stand.shop.later())
    assert (made.corrects, made.taken_at, stand.run.readings.count()) == (wrong, wrong.taken_at, 2)
    assert stand.standing().standing.outside == []
    with pytest.raises(FieldRefused, match="what was wrong"):
        services.correct(reading=made, value="32", reason="", by=stand.by, at=stand.now)


def test_an_engine_runs_only_in_test_and_only_by_a_schedule():
    early = Stand(begun=False, rigged=False)
    with pytest.raises(NotInTest, match="close-up"):
        early.begin()
    without = Shop(small_pack(model="T2-91"))
    with pytest.raises(NoSchedule, match="T2-91"):
        services.begin_run(visit=without.receive(), by=without.mechanic, at=without.later())
