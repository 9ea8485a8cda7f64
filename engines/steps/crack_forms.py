"""What is asked at a crack test, one thing on each screen."""

from collections.abc import Mapping
from typing import Any

from django import forms

from engines.steps.asking import Question, figure, one_of, typed
from engines.steps.crack_data import Details, asked_for, check_named
from engines.steps.examined import BATH, CHECK, CLEANED, DEMAGNETISED, INDICATION, LOOK, TECHNIQUE
from engines.steps.instruments import instrument_field
from engines.steps.photographs import photo_field
from engines.steps.second_look import SecondLook

FOUND, NOTHING = "an indication", "no indication, or no further one"
RELEVANT, NOT_RELEVANT = "relevant", "not relevant"
OTHER = "another sort, which the data do not name"
IS_CLEANED = "cleaned"
SHOWN = "As it shows it, in its own unit."


class ReadQuestion(SecondLook, Question):
    """What an instrument shows; the same figure twice running is looked at twice."""

    def __init__(self, data: Mapping[str, Any] | None, *, before: str, **given: Any) -> None:
        super().__init__(data, **given)
        self.ask_again("shown", before)


def question(data: Any, files: Any, asked: str, details: Details, act: str, part: str, what: str, before: str) -> Question:
    if act == CHECK:
        return _reading(data, asked, before, f"{part}{what}", check_named(details, what))
    if act == DEMAGNETISED:
        residual = details["residual"]
        return _reading(data, asked, before, f"{part}the greatest field left anywhere on it", residual)
    if act == INDICATION:
        return Question(data, files, asked=asked, **_indication(details, part))
    return Question(data, asked=asked, **_answer(details, act, part))


def _reading(data: Any, asked: str, before: str, label: str, wanted: Details) -> Question:
    told = f"{SHOWN} Asked: {asked_for(wanted)}."
    fields = {"instrument": instrument_field(f"{label}: instrument", wanted["unit"]), "shown": figure("What it shows", told)}
    return ReadQuestion(data, before=before, asked=asked, **fields)


def _answer(details: Details, act: str, part: str) -> dict[str, forms.Field]:
    if act == TECHNIQUE:
        sheet = details["technique"]["sheet"]
        return {"answer": typed(f"Technique sheet {sheet}: its revision", "As it stands on the sheet in your hand.")}
    if act == BATH:
        return _bath(details["bath"])
    if act == LOOK:
        return {"answer": one_of(f"{part}what do you see?", FOUND, NOTHING, help_text="Every face, under the lamp.")}
    return {"answer": one_of(f"{part}{details[CLEANED]}", IS_CLEANED)}


def _bath(bath: Details) -> dict[str, forms.Field]:
    fields: dict[str, forms.Field] = {"batch": typed(f"{bath['what']}: batch", "As it stands on the container or the tank.")}
    if "unit" in bath:
        fields["concentration"] = figure(f"Concentration, {bath['unit']}", f"Read now. Asked: {asked_for(bath)}.")
    return fields


def _indication(details: Details, part: str) -> dict[str, forms.Field]:
    sorts = [*(each["sort"] for each in details["criteria"]), OTHER]
    unit = details["criteria"][0]["unit"]
    return {
        "place": typed(f"{part}where is it?", "So that another person finds it: face, angle, distance from an edge."),
        "sort": forms.ChoiceField(label="What is it?", choices=[("", "choose"), *((each, each) for each in sorts)]),
        "length": figure(f"Its length, {unit}", "Or with its own unit behind the figure."),
        "relevant": one_of("Is it relevant?", RELEVANT, NOT_RELEVANT),
        "reason": forms.CharField(label="Why it is, or is not", max_length=300),
        "photo": photo_field("Photo of it", required=True),
    }
