"""A part is joined with both temperatures, in its time, seated, and seated still when it is cold. Every figure is invented."""

import pytest

from engines.inspection.models import Discrepancy
from engines.packs.reading import PackMistakes
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from tests.making_steps_s3 import Errand, load

KIND = "heat-or-chill-fit"
FIT = {
    "places": ["bushing 1"],
    "unit": "°F",
    "outer": {"part": "case", "least": "250", "greatest": "300"},
    "inner": {"part": "bushing", "greatest": "-40"},
    "seconds": "12.5",
    "check": "Flange on its seat all round.",
    "cold": {"greatest": "100"},
}
RIGHT = ("275", "-60", "10", "seated", "80", "seated")


def answers(work, *given):
    return [work.answer(answer=each)["verdict"] for each in given]


@pytest.mark.django_db
def test_warm_in_time_seated_and_seated_when_cold(client):
    work = Errand(KIND, FIT)
    assert "at least 250 and at most 300 °F" in work.page(client)
    assert answers(work, *RIGHT) == ["as asked"] * 6
    assert "at most 12.5 s" in work.page(client)
    assert work.sign().is_complete
    assert not Discrepancy.objects.exists()
    assert "-60 °F" in work.paper()


@pytest.mark.django_db
@pytest.mark.parametrize(("read", "verdict"), [("250", "as asked"), ("300.0", "as asked"), ("249.999", "not as asked")])
def test_a_temperature_is_judged_exactly_and_asked_again_where_it_is_wrong(read, verdict):
    work = Errand(KIND, FIT)
    assert answers(work, read) == [verdict]
    assert work.question() == ("inner part: bushing 1" if verdict == "as asked" else "outer part: bushing 1")
    assert not Discrepancy.objects.exists()


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("before", "wrong", "said"),
    [
        (RIGHT[:2], "12.51", "seconds: 12.51 s, at most 12.5 s is asked"),
        (RIGHT[:3], "not seated", "seated: not seated, Flange on its seat all round. is asked"),
        (RIGHT[:5], "not seated", "still seated: not seated"),
    ],
)
def test_a_bad_joining_goes_before_the_inspector_and_is_begun_with_both_temperatures(before, wrong, said):
    work = Errand(KIND, FIT)
    answers(work, *before, wrong)
    assert said in Discrepancy.objects.get().words
    assert work.question() == "outer part: bushing 1"
    with pytest.raises(NotYet, match="was not as asked; outer part is not answered yet"):
        work.sign()
    answers(work, *RIGHT)
    assert work.sign().is_complete


@pytest.mark.django_db
def test_what_the_inspector_lets_pass_goes_on_in_its_order():
    work = Errand(KIND, FIT)
    answers(work, *RIGHT[:2], "13")
    work.let_pass()
    assert work.question() == "seated: bushing 1"
    answers(work, *RIGHT[3:])
    assert work.sign().is_complete


@pytest.mark.django_db
def test_interrupted_before_it_is_cold_it_is_not_signed():
    work = Errand(KIND, FIT)
    answers(work, *RIGHT[:4], "140")
    assert work.question() == "cold again: bushing 1"
    with pytest.raises(NotYet, match="cold again was not as asked"):
        work.sign()
    answers(work, *RIGHT[4:])
    assert work.sign().is_complete


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("before", "given", "said"),
    [
        ((), "warm", "is not a number"),
        ((), "-500", "below absolute zero"),
        (RIGHT[:2], "-1", "Time does not run backwards"),
        (RIGHT[:3], "perhaps", "Choose one of: seated, not seated"),
    ],
)
def test_what_cannot_be_is_refused(before, given, said):
    work = Errand(KIND, FIT)
    answers(work, *before)
    with pytest.raises(StepRefused, match=said):
        work.answer(answer=given)


@pytest.mark.django_db
def test_opened_again_by_the_inspector_both_temperatures_are_asked_anew():
    work = Errand(KIND, FIT)
    answers(work, *RIGHT)
    work.sign()
    reopen(operation=work.operation, reason="the flange stands off", by=work.shop.inspector, at=work.shop.later())
    assert work.question() == "outer part: bushing 1"
    assert work.paper().count('<tr class="struck"') == 6


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"places": []}, "places are a list of texts"),
        ({"unit": "warm"}, "unit is a scale of temperature"),
        ({"seconds": "0"}, "seconds “0” are no number above zero"),
        ({"outer": {"least": "250"}}, "outer says part, least, greatest"),
        ({"outer": {"part": "case"}}, "outer has no temperature"),
        ({"inner": {"part": "bushing", "least": "cold"}}, "a temperature of inner is no number"),
        ({"outer": {"part": "case", "least": "300", "greatest": "250"}}, "the least of outer is above its greatest"),
        ({"check": ["flange"]}, "check says in one text"),
        ({"colour": "red"}, "the kind heat-or-chill-fit knows no details “colour”"),
    ],
)
def test_data_that_ask_for_no_temperature_are_refused(changed, said):
    with pytest.raises(PackMistakes, match=said):
        load(KIND, FIT | changed)


@pytest.mark.parametrize("name", list(FIT))
def test_data_without_a_target_are_refused(name):
    with pytest.raises(PackMistakes, match=f"{name} is missing"):
        load(KIND, {key: value for key, value in FIT.items() if key != name})
