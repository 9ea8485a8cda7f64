"""Numbered parts go home: what was tagged at a position is what is fitted there, the way up that the data say.

An exchange of two parts is kept with its reason, brought before the inspector, and accepted by a second person with the hold
point. From then on each belongs to the other's position, and what was read of them there is read again with its new mates.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.parts.models import Item
from engines.steps.details import unknown
from engines.steps.fitting import put_back
from engines.steps.noticing import raise_at
from engines.steps.spots import SpotField, as_value, open_spots
from engines.steps.work import PARTS, Content, Spot, Step, StepRefused, Work
from engines.visits.services import exchange_parts
from shopfloor.people.models import Person

UNTRACKED = "none"


class IdentityForm(forms.Form):
    identity = forms.CharField(
        label="Serial or mark that you read on the part", max_length=60, help_text="Read it on the part, not on the tray."
    )
    way_up = forms.BooleanField(label="It lies as the data say")
    reason = forms.CharField(
        label="Reason for an exchange",
        max_length=400,
        required=False,
        help_text="Only where another part than its own goes here; a second person then has to accept it.",
    )

    def __init__(self, *args: Any, work: Work, spots: list[Spot], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields = {"spot": SpotField(work, spots), **self.fields}
        if words := work.operation.details.get("way_up"):
            self.fields["way_up"].label = f"The way up: {words}"
        else:
            del self.fields["way_up"]


class KeyedIdentity(Step):
    name = "keyed-identity"
    words = "keyed identity"
    caution = "Numbered parts have worn in together. Read the number on the part itself before it is closed in."
    names_what = PARTS
    needs_names = moves_parts = fits_parts = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from unknown(self.name, operation.details, ("way_up",))
        if not isinstance(operation.details.get("way_up", ""), str):
            yield "way_up is one text"
        if not operation.hold_point:
            yield "it is no hold point, so nobody could accept an exchange"
        for line in (data.line_by_code[name] for name in operation.names if name in data.line_by_code):
            if line.renew or line.tracking == UNTRACKED:
                yield f"“{line.line}” has no identity that could go home"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> IdentityForm | None:
        left = open_spots(work)
        return IdentityForm(data, work=work, spots=left) if left else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        spot: Spot = given["spot"]
        home, found = self._home(work, spot), self._found(work, spot, given["identity"].strip())
        reason = given["reason"].strip()
        if found.pk != home.pk and not reason:
            words = f"{found} does not belong here, but {home}. Put the right one in, or give the reason for an exchange."
            raise StepRefused(words)
        put_back(work, spot, found, by=by, at=at)
        if found.pk != home.pk:
            self._exchange(work, spot, home, found, reason, by, at)
        return {
            "spot": as_value(spot),
            "position": work.words(spot),
            "identity": found.identity,
            "its own": "yes" if found.pk == home.pk else f"no, in place of {home.identity}",
            "reason": reason if found.pk != home.pk else "",
            "way up": work.operation.details.get("way_up", ""),
        }

    def missing(self, work: Work) -> list[str]:
        return [f"{work.words(spot)}: nobody read which part is fitted." for spot in open_spots(work)]

    def lines(self, work: Work) -> Content:
        tags = [(work.words(spot), work.now.tagged.get(spot)) for spot in work.spots]
        return {"entries": work.entries, "homes": [(words, tag.item.identity) for words, tag in tags if tag and tag.item]}

    def _home(self, work: Work, spot: Spot) -> Item:
        tagged = work.now.tagged.get(spot)
        if tagged is None or tagged.item is None:
            raise StepRefused(
                f"No part has an identity for {work.words(spot)}. Strip and tag it, or decide about the missing one."
            )
        return tagged.item

    def _exchange(self, work: Work, spot: Spot, home: Item, found: Item, reason: str, by: Person, at: datetime) -> None:
        line, place = spot
        other = next(at for (name, at), tag in work.now.tagged.items() if name == line and tag.item_id == found.pk)
        told = f"{work.words(spot)}: {found} is fitted in place of {home}, which belongs to {other} from now on. {reason}"
        raise_at(work, spot, told, by=by, at=at)
        exchange_parts(visit=work.visit, line=line, places=(place, other), words=reason, by=by, at=at)

    def _found(self, work: Work, spot: Spot, identity: str) -> Item:
        """The part of that line on this engine which carries the identity."""
        mates = [tag.item for (line, _), tag in work.now.tagged.items() if line == spot[0] and tag.item]
        found = [item for item in mates if identity and identity in (item.serial, item.mark)]
        if len(found) != 1:
            words = f"{'More than one' if found else 'No'} {work.line(spot).name} of this engine is tagged “{identity}”."
            raise StepRefused(f"{words} Read the part again, and compare its tag.")
        return found[0]
