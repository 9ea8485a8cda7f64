"""A part is tried with a gauge that has no scale: it goes, or it does not."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.steps.instruments import instrument, instrument_field
from engines.steps.noticing import raise_at
from engines.steps.spots import SpotField, as_value, open_spots
from engines.steps.work import PARTS, Content, Step, Work
from shopfloor.people.models import Person

RESULTS = (("go", "go: as the criterion asks"), ("no-go", "no-go"))


class TryForm(forms.Form):
    result = forms.ChoiceField(label="Result", choices=RESULTS, widget=forms.RadioSelect)
    gauge = forms.ChoiceField()
    words = forms.CharField(label="What happened", max_length=400, required=False, help_text="Where it did not go.")

    def __init__(self, *args: Any, work: Work, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["gauge"] = instrument_field("Gauge or plate used")
        if work.operation.names:
            self.fields = {"spot": SpotField(work, open_spots(work) or work.spots), **self.fields}


class GoNoGo(Step):
    name = "go-no-go"
    words = "go / no-go"
    names_what = PARTS
    caution = "Clean gauge and part, and use no force: what is pressed goes everywhere, and is worn by it."
    judged_by_words = can_find = True

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> TryForm:
        return TryForm(data, work=work)

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        spot, held = given.get("spot"), instrument(given["gauge"], at)
        position = work.words(spot) if spot else ""
        if given["result"] == "no-go":
            words = f"{position or work.operation.title}: no-go with {given['gauge']}. {given['words']}".strip()
            raise_at(work, spot, words, by=by, at=at)
        return {
            "spot": as_value(spot) if spot else "",
            "position": position,
            "result": given["result"],
            "gauge": held.number,
            "certificate": held.certificate,
            "words": given["words"],
        }

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("result") == "no-go"

    def missing(self, work: Work) -> list[str]:
        if not work.operation.names:
            return [] if work.entries else ["It was not tried yet."]
        return [f"{work.words(spot)} was not tried." for spot in open_spots(work)]
