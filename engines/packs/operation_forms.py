"""An operation as a person fills it in. What is right is decided by the reader of packs, so that a form loses nothing typed."""

from collections.abc import Iterable, Mapping
from typing import Any, ClassVar

from django import forms

from engines.catalogue.data import STAGES
from engines.steps.registry import STEPS


class Told(forms.CharField):
    """Has to be filled in; whether it was is told by the reader, with all else that is wrong."""

    def validate(self, value: Any) -> None:
        """Whatever was typed is taken."""


def line(label: str, help_text: str = "", *, needed: bool = True) -> forms.CharField:
    return Told(label=label, help_text=help_text, required=needed)


def lines(label: str, help_text: str = "", rows: int = 3, **more: Any) -> forms.CharField:
    return forms.CharField(label=label, help_text=help_text, required=False, widget=forms.Textarea(attrs={"rows": rows}), **more)


def word(label: str, words: Iterable[tuple[str, str]], *, needed: bool = True) -> forms.CharField:
    """One of the words; what is none of them is kept, and told by the reader."""
    return Told(label=label, required=needed, widget=forms.Select(choices=[("", "choose"), *words]))


class OperationForm(forms.Form):
    """The fields of an operation by the keys of route.yaml."""

    use_required_attribute = False

    stage = word("Stage", [(each, each) for each in STAGES])
    kind = word("Kind", [(step.name, f"{step.words} ({step.name})") for step in STEPS.values()])
    title = line("Title")
    words = lines("What is done", rows=4)
    criterion = lines("Criterion", "What right looks like; wanted where a judgement in words decides.")
    names = lines("Works on", "Limit rows or parts list lines, one to a line, as the kind wants it.")
    after = lines("After what: complete first", "Codes of operations, one to a line.")
    hold_point = forms.BooleanField(label="Hold point: a second person accepts it", required=False)
    caution = line("Caution", "The code of a caution of the data.", needed=False)
    details = lines("Details of the kind", "As YAML, figures as they stand on the page.", 8, strip=False)
    document = line("Document")
    revision = line("Its revision")
    page = line("Page or figure")

    LISTS: ClassVar[tuple[str, ...]] = ("names", "after")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            if isinstance(field, forms.CharField) and isinstance(field.widget, forms.Select):
                _keep(field.widget, str(self[name].value() or ""))

    def given(self) -> dict[str, Any]:
        """A valid form as the fields of an entry."""
        filled: Mapping[str, Any] = self.cleaned_data
        given = {name: value.replace("\r\n", "\n") if isinstance(value, str) else value for name, value in filled.items()}
        return given | {name: listed(given[name]) for name in self.LISTS}


def listed(text: str | list[str]) -> list[str]:
    """One to a line, or chosen."""
    return [each.strip() for each in text.splitlines() if each.strip()] if isinstance(text, str) else list(text)


def _keep(widget: forms.Select, value: str) -> None:
    if value not in {key for key, _ in widget.choices}:
        widget.choices = [*widget.choices, (value, f"{value} (not known)")]
