"""The same number twice running is kept only when somebody says that it was read again."""

import pytest
from django import forms

from engines.steps.second_look import SecondLook, check_second_look, is_repeated
from engines.steps.work import StepRefused
from tests.making_packs import empty_case
from tests.making_visits import Shop


class Figure(SecondLook):
    figure = forms.CharField()

    def __init__(self, data=None, before=""):
        super().__init__(data)
        self.ask_again("figure", before)


@pytest.mark.parametrize(
    ("before", "now", "repeated"),
    [("24.50", "24.5", True), ("24.5", " 24.50 ", True), ("24.5", "24.51", False), ("", "24.5", False), ("24.5", "2x", False)],
)
def test_a_repeat_is_one_of_number_not_of_writing(before, now, repeated):
    assert is_repeated(before, now) is repeated
    assert ("read_again" in Figure({"figure": now}, before).fields) is repeated


def test_a_repeat_is_kept_only_when_it_was_read_again():
    with pytest.raises(StepRefused, match="Read the gauge again"):
        check_second_look("24.5", "24.50", {})
    check_second_look("24.5", "24.50", {"read_again": True})
    check_second_look("24.5", "24.60", {})


def test_a_form_that_nobody_filled_in_asks_for_no_second_look():
    assert list(Figure(before="24.5").fields) == ["figure"]


@pytest.mark.django_db
def test_an_empty_case_gets_to_assembly_at_once():
    shop = Shop(empty_case())
    assert shop.to_assembly(shop.receive()).stage == "assembly"
