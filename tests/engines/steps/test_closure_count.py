"""Closures, tools and rags are counted before a closing, and the shaft stands still while nothing holds the bearings."""

import pytest

from engines.inspection.models import Discrepancy
from engines.packs.reading import PackMistakes
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from tests.making_steps_s3 import Errand, load

CLOSURES = [{"number": "C-1", "place": "oil inlet"}, {"number": "C-2", "place": "breather"}]
COUNTED = {"closures": CLOSURES, "tools": [{"tool": "adapter", "count": "2"}], "rags": "6"}
SHAFT = {"turned": "one turn by hand", "hold_down": "nuts of cylinder 1", "plates": ["P-1", "P-2"]}


def errand(**more):
    return Errand("closure-count", COUNTED | more)


def take_out(work):
    return [work.answer(number=number) for number in ("C-2", "C-1")]


def count(work, *figures):
    return [work.answer(counted=each)["verdict"] for each in figures or ("2", "2", "6")]


def put_in(work):
    return [work.answer(number=number) for number in ("C-1", "C-2")]


@pytest.mark.django_db
def test_out_counted_and_in_again_it_is_signed(client):
    work = errand()
    assert "C-1" in work.page(client)
    take_out(work)
    assert work.question() == "count: closures on the tray"
    assert count(work) == ["agrees"] * 3
    put_in(work)
    assert "in again" in work.page(client)
    assert work.question() == ""
    assert work.sign().is_complete
    assert not Discrepancy.objects.exists()


@pytest.mark.django_db
def test_a_rag_too_few_is_brought_before_the_inspector_and_counted_again():
    work = errand()
    take_out(work)
    assert count(work, "2", "2", "5") == ["agrees", "agrees", "does not agree"]
    assert Discrepancy.objects.get().words == "rags: 5 counted, 6 belong there."
    with pytest.raises(StepRefused, match="What is asked now is “count: rags”"):
        work.answer("closure in again", number="C-1")
    with pytest.raises(NotYet, match="rags: the count does not agree"):
        work.sign()
    assert count(work, "6") == ["agrees"]
    assert work.question() == "closure in again"


@pytest.mark.django_db
def test_a_count_that_the_inspector_lets_pass_goes_on():
    work = errand()
    take_out(work)
    count(work, "2", "2", "5")
    work.let_pass()
    assert work.question() == "closure in again"
    put_in(work)
    assert work.sign().is_complete


@pytest.mark.django_db
def test_interrupted_it_says_which_closure_is_still_out():
    work = errand()
    take_out(work)
    count(work)
    work.answer(number="C-2")
    assert work.missing() == ["Closure C-1: not in again yet."]
    with pytest.raises(NotYet):
        work.sign()


@pytest.mark.django_db
@pytest.mark.parametrize("number", ["C-2", "C-3", ""])
def test_a_number_that_is_not_left_is_refused(number):
    work = errand()
    work.answer(number="C-2")
    with pytest.raises(StepRefused, match="is none of those that are left: C-1"):
        work.answer(number=number)


@pytest.mark.django_db
@pytest.mark.parametrize("counted", ["six", "2.0", "-2", "2.5"])
def test_only_a_whole_number_is_a_count(counted):
    work = errand()
    take_out(work)
    with pytest.raises(StepRefused, match="is no whole number"):
        work.answer(counted=counted)


@pytest.mark.django_db
def test_the_shaft_is_turned_with_the_hold_down_on():
    work = errand(shaft=SHAFT)
    take_out(work)
    count(work)
    work.answer(answer="on")
    assert work.question() == "turn the shaft"
    work.answer(answer="turned")
    put_in(work)
    assert work.sign().is_complete


@pytest.mark.django_db
def test_the_shaft_is_not_turned_while_a_plate_is_missing():
    work = errand(shaft=SHAFT)
    take_out(work)
    count(work)
    work.answer(answer="off")
    work.answer(answer="fitted")
    with pytest.raises(StepRefused, match="What is asked now is “plate: P-2”"):
        work.answer("turn the shaft", answer="turned")
    assert work.missing() == ["The hold-down is off and plate P-2 is not recorded as fitted: the shaft is not turned."]
    work.answer(answer="fitted")
    assert work.question() == "turn the shaft"


@pytest.mark.django_db
def test_instead_of_a_plate_the_hold_down_is_put_on():
    work = errand(shaft=SHAFT)
    take_out(work)
    count(work)
    work.answer(answer="off")
    work.answer(answer="on")
    assert work.question() == "turn the shaft"


@pytest.mark.django_db
def test_opened_again_everything_is_counted_anew_and_the_paper_keeps_both_rounds():
    work = errand()
    take_out(work)
    count(work)
    put_in(work)
    work.sign()
    reopen(operation=work.operation, reason="a rag was missed", by=work.shop.inspector, at=work.shop.later())
    assert work.question() == "closure out"
    work.answer(number="C-1")
    printed = work.paper()
    assert "6 of 6, <b>agrees</b>" in printed
    assert "oil inlet" in printed
    assert printed.count('<tr class="struck"') == 7


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"closures": "C-1"}, "closures are a list, each with number and place"),
        ({"closures": [CLOSURES[0], CLOSURES[0]]}, "closures have “C-1” twice"),
        ({"tools": [{"tool": "adapter", "count": "some"}]}, "of adapter a whole number is counted"),
        ({"tools": [{"tool": "rags", "count": "1"}]}, "a tool cannot be called rags"),
        ({"rags": "6.5"}, "rags are a whole number"),
        ({"shaft": {"turned": "by hand"}}, "shaft says turned, hold_down, plates"),
        ({"shaft": SHAFT | {"plates": []}}, "plates are a list of numbers"),
        ({"colour": "red"}, "the kind closure-count knows no details “colour”"),
    ],
)
def test_data_that_count_nothing_are_refused(changed, said):
    with pytest.raises(PackMistakes, match=said):
        load("closure-count", COUNTED | changed)


def test_data_without_a_count_of_rags_are_refused():
    with pytest.raises(PackMistakes, match="rags is missing"):
        load("closure-count", {name: value for name, value in COUNTED.items() if name != "rags"})
