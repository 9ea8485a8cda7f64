"""A part is looked at against the criterion of the data: accepted, or not, with the place on a picture and a photo."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.steps.noticing import raise_at
from engines.steps.photographs import keep_photo, photo_field
from engines.steps.spots import SpotField, as_value, open_spots
from engines.steps.work import PARTS, Content, Step, Work
from shopfloor.people.models import Person

VERDICTS = (("accepted", "accepted: meets the criterion"), ("not accepted", "not accepted"))


class FindingForm(forms.Form):
    verdict = forms.ChoiceField(label="Against the criterion", choices=VERDICTS, widget=forms.RadioSelect)
    words = forms.CharField(
        label="What you saw", max_length=400, required=False, help_text="Needed where it is not accepted: what, where, how large."
    )
    photo = photo_field()
    across = forms.IntegerField(label="Place on the photo, % from the left", min_value=0, max_value=100, required=False)
    down = forms.IntegerField(label="Place on the photo, % from the top", min_value=0, max_value=100, required=False)

    def __init__(self, *args: Any, work: Work, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if work.operation.names:
            left = open_spots(work) or work.spots
            self.fields = {"spot": SpotField(work, [*left, *(spot for spot in work.spots if spot not in left)]), **self.fields}

    def clean(self) -> dict[str, Any]:
        given = super().clean() or {}
        if given.get("verdict") == "not accepted" and not given.get("words"):
            self.add_error("words", "Say what you saw, so that whoever decides can see it before them.")
        if (given.get("across") is None) != (given.get("down") is None):
            self.add_error("across", "A place needs both figures, from the left and from the top.")
        return given


class VisualFinding(Step):
    name = "visual-finding"
    words = "visual finding"
    names_what = PARTS
    caution = (
        "Clean, good light, a glass where the data name one. Decide on what you see, not on what the part has always looked like."
    )
    judged_by_words = can_find = True

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> FindingForm:
        return FindingForm(data, files, work=work)

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        spot = given.get("spot")
        content = {
            "spot": as_value(spot) if spot else "",
            "position": work.words(spot) if spot else "",
            "verdict": given["verdict"],
            "words": given["words"],
            "photo": keep_photo(given.get("photo"), at),
            "across": _text(given["across"]),
            "down": _text(given["down"]),
        }
        if given["verdict"] == "not accepted":
            where = f"{content['position']}: " if spot else ""
            raise_at(work, spot, f"{where}{given['words']} (criterion: {work.operation.criterion})", by=by, at=at)
        return content

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("verdict") == "not accepted"

    def missing(self, work: Work) -> list[str]:
        if not work.operation.names:
            return [] if work.entries else ["Nothing is entered yet: say what you saw against the criterion."]
        return [f"{work.words(spot)} was not looked at." for spot in open_spots(work)]

    def lines(self, work: Work) -> Content:
        return {"entries": work.entries, "left": [work.words(spot) for spot in open_spots(work)]}


def _text(number: int | None) -> str:
    return "" if number is None else str(number)
