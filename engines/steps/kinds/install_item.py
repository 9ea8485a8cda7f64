"""A part goes to its position: the one that was tagged there, or a new one with its evidence."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.parts.models import Item
from engines.parts.services import add_item, book_evidence
from engines.steps.fitting import fitted_this_visit, put_back
from engines.steps.spots import SpotField, as_value, entered_at, is_there
from engines.steps.work import PARTS, Content, Spot, Step, StepRefused, Work
from shopfloor.people.models import Person


class InstallForm(forms.Form):
    new_identity = forms.CharField(
        label="Serial or lot of a new part",
        max_length=60,
        required=False,
        help_text="Blank: the part that was tagged at this position.",
    )
    evidence = forms.CharField(
        label="Its evidence of eligibility",
        max_length=80,
        required=False,
        help_text="The number of its certificate; needed for a new part.",
    )
    undisturbed = forms.BooleanField(
        label="It was not disturbed since it was fitted",
        required=False,
        help_text="Only where this was done before and is opened again. Blank: it was taken off, and is fitted again.",
    )

    def __init__(self, *args: Any, work: Work, spots: list[Spot], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields = {"spot": SpotField(work, spots), **self.fields}
        if not fitted_this_visit(work).keys() & set(spots):
            del self.fields["undisturbed"]


class InstallItem(Step):
    name = "install-item"
    words = "install item"
    names_what = PARTS
    needs_names = moves_parts = fits_parts = True
    caution = "Before it is fitted: clean, dry, the right part number, nothing left inside."

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> InstallForm | None:
        left = self._open(work)
        return InstallForm(data, work=work, spots=left) if left else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        spot = given["spot"]
        if given.get("undisturbed"):
            return self._still_there(work, spot, given)
        item = self._item(work, spot, given["new_identity"].strip(), given["evidence"].strip(), by, at)
        put_back(work, spot, item, by=by, at=at)
        return {**_fitted(work, spot, item), "evidence": given["evidence"]}

    def missing(self, work: Work) -> list[str]:
        return [f"{work.words(spot)} is not fitted." for spot in self._open(work)]

    def _open(self, work: Work) -> list[Spot]:
        """Those without an entry in this round: an operation that was opened again asks for each part anew.

        What never came with the engine, and has nothing in its place, is not fitted; the gates ask whether that may be.
        """
        done = entered_at(work)
        return [spot for spot in work.spots if spot not in done and is_there(work, spot)]

    def _still_there(self, work: Work, spot: Spot, given: Mapping[str, Any]) -> Content:
        before = fitted_this_visit(work).get(spot)
        tagged = work.now.tagged.get(spot)
        if before is None or (tagged is not None and tagged.item_id != before.item_id):
            raise StepRefused(f"The part that belongs to {work.words(spot)} is not on record as fitted: fit it.")
        if given["new_identity"] or given["evidence"]:
            raise StepRefused("Either it was not disturbed, or a new part went in: clear the one that is not so.")
        return {**_fitted(work, spot, before.item), "undisturbed": f"not disturbed since {before.fitted_at:%Y-%m-%d %H:%M} UTC"}

    def _item(self, work: Work, spot: Spot, identity: str, evidence: str, by: Person, at: datetime) -> Item:
        line, tagged = work.line(spot), work.now.tagged.get(spot)
        if not identity:
            if line.renew or tagged is None or tagged.item is None:
                raise StepRefused(f"{line.name} is fitted new: type its serial or lot and the number of its evidence.")
            return tagged.item
        if tagged is not None:
            raise StepRefused(f"Another {line.name} is tagged there. Enter the replacement on the discrepancy that it answers.")
        if not evidence:
            raise StepRefused("A new part needs its evidence of eligibility: type the number of its certificate.")
        item = add_item(
            part_number=line.part_number,
            name=line.name,
            serial="",
            mark=identity,
            tracking="mark",
            origin="booked in",
            by=by,
            at=at,
        )
        book_evidence(item=item, kind="certificate", number=evidence, issued_by="", issued_on=None, by=by, at=at)
        return item


def _fitted(work: Work, spot: Spot, item: Item) -> Content:
    return {"spot": as_value(spot), "position": work.words(spot), "item": str(item), "number": item.part_number}
