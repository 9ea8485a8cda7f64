"""Views that the data name are photographed; every one of them is there before the signature."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.details import is_texts, unknown
from engines.steps.photographs import keep_photo, photo_field
from engines.steps.work import Content, Step, Work
from shopfloor.people.models import Person


class PhotoForm(forms.Form):
    view = forms.ChoiceField(label="View")
    photo = photo_field(required=True)

    def __init__(self, *args: Any, views: list[str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        view: Any = self.fields["view"]
        view.choices = [("", "choose the view"), *((each, each) for each in views)]


class PhotoStep(Step):
    name = "photo"
    words = "photo"
    caution = "Light from the side, the part's number in the picture, and nothing loose held over an open engine."
    has_own_paper = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from unknown(self.name, operation.details, ("views",))
        if not is_texts(operation.details.get("views")):
            yield "views name what is photographed, each once"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> PhotoForm:
        views = work.operation.details["views"]
        left = self._left(work)
        return PhotoForm(data, files, views=[*left, *(view for view in views if view not in left)])

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        return {"view": given["view"], "photo": keep_photo(given["photo"], at)}

    def missing(self, work: Work) -> list[str]:
        return [f"{view} is not photographed yet." for view in self._left(work)]

    def lines(self, work: Work) -> Content:
        return {"entries": work.entries, "left": self._left(work)}

    def _left(self, work: Work) -> list[str]:
        taken = {entry["view"] for entry in work.entries}
        return [view for view in work.operation.details["views"] if view not in taken]
