"""One question on a screen: nothing is chosen beforehand, and an answer to what was asked before is noticed."""

import pytest

from engines.steps.asking import Question, check_asked, one_of, typed
from engines.steps.work import StepRefused


def test_a_judgement_has_no_default_and_no_answer_is_none():
    shown = Question(asked="seated: bushing", answer=one_of("Seated?", "seated", "not seated"))
    assert "checked" not in shown.as_p()
    assert 'value="seated: bushing"' in shown.as_p()
    sent = Question({"asked": "seated: bushing"}, asked="seated: bushing", answer=one_of("Seated?", "seated", "not seated"))
    assert list(sent.errors) == ["answer"]


def test_two_questions_do_not_share_their_fields():
    first = Question(asked="one", number=typed("Number"))
    second = Question(asked="two", lot=typed("Lot"))
    assert (list(first.fields), list(second.fields)) == (["asked", "number"], ["asked", "lot"])


@pytest.mark.parametrize(
    ("now", "given", "said"),
    [
        (None, {"asked": "count: rags"}, "Nothing is left to be entered"),
        ("count: rags", {}, "What is asked now is “count: rags”"),
        ("count: rags", {"asked": "closure out"}, "What is asked now is “count: rags”"),
    ],
)
def test_an_answer_to_something_else_is_refused(now, given, said):
    with pytest.raises(StepRefused, match=said):
        check_asked(now, given)
