"""The marks of a gear train meet as the data say, seen and photographed while the pistons stand where the data want them."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.details import is_records, is_texts, missing_texts, unknown
from engines.steps.photographs import keep_photo, photo_field
from engines.steps.work import Content, Step, Work
from shopfloor.people.models import Person

PAIR = ("mark", "meets")
MEETS = (("yes", "they meet"), ("no", "they do not meet"))


class MarksForm(forms.Form):
    """One question for each pair, none answered beforehand."""

    def __init__(self, *args: Any, details: Mapping[str, Any], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["before"] = forms.BooleanField(label=f"Seen first: {details['before']}")
        for index, pair in enumerate(details["pairs"]):
            label = f"{pair['mark']} on {pair['meets']}"
            self.fields[f"pair_{index}"] = forms.ChoiceField(label=label, choices=MEETS, widget=forms.RadioSelect)
        self.fields["photo"] = photo_field("Photo of the marks", required=True)


class IndexMarks(Step):
    name = "index-marks"
    words = "index marks"
    caution = "A gear one tooth out can bend valves at the first turn. Nobody turns the shaft until the marks are accepted."
    has_own_paper = can_find = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        details = operation.details
        yield from unknown(self.name, details, ("before", "pairs", "no_matter"))
        yield from missing_texts(details, ("before",))
        if not is_records(details.get("pairs"), PAIR):
            yield "pairs are a list, each with mark and meets"
        if "no_matter" in details and not is_texts(details["no_matter"]):
            yield "no_matter is a list of the marks that mean nothing in this engine"
        if not operation.hold_point:
            yield "it is no hold point, so nobody would see the marks a second time"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> MarksForm:
        return MarksForm(data, files, details=work.operation.details)

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        details = work.operation.details
        seen = [given[f"pair_{index}"] for index, _ in enumerate(details["pairs"])]
        return {
            "before": details["before"],
            "pairs": [f"{pair['mark']} on {pair['meets']}: {said}" for pair, said in zip(details["pairs"], seen, strict=True)],
            "verdict": "the marks meet" if set(seen) == {"yes"} else "the marks do not meet",
            "photo": keep_photo(given["photo"], at),
        }

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("verdict") == "the marks do not meet"

    def missing(self, work: Work) -> list[str]:
        if not work.entries:
            return ["The marks were not looked at yet."]
        if self.is_not_accepted(work.entries[-1]):
            return ["The marks did not meet when they were last seen: put the gears right and look again."]
        return []

    def lines(self, work: Work) -> Content:
        return {"entries": work.entries, "no_matter": work.operation.details.get("no_matter", ())}
