"""Each part taken off gets an identity, the position it came from, its condition as found, and a tray of this engine."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from django import forms

from engines.parts.models import Fitment
from engines.parts.queries import fitted_now
from engines.steps.noticing import raise_at
from engines.steps.spots import SpotField
from engines.steps.work import PARTS, Content, Spot, Step, Work
from engines.visits.models import Tagged
from engines.visits.services import Found, Identity, tag_parts
from shopfloor.people.models import Person


class TagForm(forms.Form):
    serial = forms.CharField(label="Serial on the part", max_length=60, required=False)
    mark = forms.CharField(
        label="Mark that you put on it",
        max_length=60,
        required=False,
        help_text="For a part without a serial, such as 3-P for piston 3.",
    )
    tray = forms.CharField(label="Tray", max_length=40, required=False, help_text="The tag on the tray that it lies in.")
    as_found = forms.CharField(label="As found", max_length=400, help_text="Its condition, before anything is cleaned.")
    absent = forms.BooleanField(label="It was not there", required=False)

    def __init__(self, *args: Any, work: Work, spots: list[Spot], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields = {"spot": SpotField(work, spots), **self.fields}


class StripAndTag(Step):
    name = "strip-and-tag"
    words = "strip and tag"
    names_what = PARTS
    needs_names = moves_parts = True
    caution = "Springs, pins and heavy parts come loose. Support what you release, and keep parts of two engines apart."

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> TagForm | None:
        left = self._untagged(work)
        return TagForm(data, work=work, spots=left) if left else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> None:
        self.keep_all(work, [given], by=by, at=at)

    def keep_all(self, work: Work, given: Sequence[Mapping[str, Any]], *, by: Person, at: datetime) -> list[Content]:
        before = fitted_now(work.visit.engine.item)
        tagged = tag_parts(visit=work.visit, found=[_found(each) for each in given], by=by, at=at)
        for each, tag in zip(given, tagged, strict=True):
            for words in _surprises(each, tag, before.get(each["spot"])):
                raise_at(work, each["spot"], f"{work.words(each['spot'])}{words}", by=by, at=at)
        return []

    def missing(self, work: Work) -> list[str]:
        return [f"{work.words(spot)} is not tagged." for spot in self._untagged(work)]

    def shown(self, work: Work) -> Content:
        return {"tags": [_plain(work, spot) for spot in work.spots if spot in work.now.tagged]}

    def lines(self, work: Work) -> Content:
        before = fitted_now(work.visit.engine.item) if self._untagged(work) else {}
        return {"tags": [(work.words(spot), work.now.tagged.get(spot), before.get(spot)) for spot in work.spots]}

    def _untagged(self, work: Work) -> list[Spot]:
        return [spot for spot in work.spots if spot not in work.now.tagged]


def _found(given: Mapping[str, Any]) -> Found:
    line, place = given["spot"]
    if given["absent"]:
        return Found(line, place, None, "", given["as_found"])
    return Found(line, place, Identity(serial=given["serial"], mark=given["mark"]), given["tray"], given["as_found"])


def _surprises(given: Mapping[str, Any], tagged: Tagged, before: Fitment | None) -> Iterator[str]:
    """What somebody has to look into: nothing there, scrap, or another part than the one that left the shop."""
    if tagged.item is None:
        yield f" was not there: {given['as_found']}"
    elif tagged.item.scrapped_at:
        yield f": {tagged.item} was found, which was scrapped on {tagged.item.scrapped_at:%Y-%m-%d}"
    if tagged.item and before and before.item_id != tagged.item_id:
        yield f": {tagged.item} was found, where by the record {before.item} was fitted on {before.fitted_at:%Y-%m-%d}"


def _plain(work: Work, spot: Spot) -> Content:
    tagged = work.now.tagged[spot]
    item = tagged.item
    return {
        "position": work.words(spot),
        "serial": item.serial if item else "",
        "mark": item.mark if item else "",
        "tray": tagged.tray.tag if tagged.tray else "",
        "as_found": tagged.as_found,
    }
