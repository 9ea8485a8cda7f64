"""A step that asks one thing after the other: each screen holds one question, and an answer to another question is refused."""

from collections.abc import Collection, Mapping
from typing import Any

from django import forms

from engines.steps.work import StepRefused


class Question(forms.Form):
    """A screen with one question. `asked` travels with the answer, so that an answer to what was asked before is noticed."""

    asked = forms.CharField(widget=forms.HiddenInput, max_length=2400)

    def __init__(self, data: Mapping[str, Any] | None = None, files: Any = None, *, asked: str, **fields: forms.Field) -> None:
        super().__init__(data, files, initial={"asked": asked})
        self.fields |= fields


def check_asked(now: str | None, given: Mapping[str, Any]) -> None:
    """Raises StepRefused where nothing is asked any more, or something else than what was answered."""
    if now is None:
        raise StepRefused("Nothing is left to be entered at this operation.")
    if given.get("asked") != now:
        raise StepRefused(f"What is asked now is “{now}”. Open the page again, and answer that.")


def check_answer(given: Mapping[str, Any], answers: Collection[str]) -> None:
    """Raises StepRefused for anything but one of the answers that were offered."""
    if given.get("answer") not in answers:
        raise StepRefused(f"Choose one of: {', '.join(answers)}.")


def typed(label: str, help_text: str = "", **given: Any) -> forms.CharField:
    attrs = {"autocomplete": "off"}
    return forms.CharField(label=label, help_text=help_text, max_length=60, widget=forms.TextInput(attrs=attrs), **given)


def figure(label: str, help_text: str = "", **given: Any) -> forms.CharField:
    attrs = {"inputmode": "decimal", "autocomplete": "off"}
    return forms.CharField(label=label, help_text=help_text, max_length=20, widget=forms.TextInput(attrs=attrs), **given)


def one_of(label: str, *answers: str, help_text: str = "") -> forms.ChoiceField:
    """A judgement: every answer is shown, none is chosen."""
    return forms.ChoiceField(
        label=label, choices=[(each, each) for each in answers], widget=forms.RadioSelect, help_text=help_text
    )
