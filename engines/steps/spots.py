"""Choosing a position in a form, and saying which positions are still open."""

from collections.abc import Iterable

from django import forms

from engines.steps.work import Spot, Work

BETWEEN = "|"


def as_value(spot: Spot) -> str:
    return BETWEEN.join(spot)


def from_value(value: str) -> Spot:
    line, _, place = value.partition(BETWEEN)
    return line, place


class SpotField(forms.ChoiceField):
    def __init__(
        self, work: Work, spots: Iterable[Spot], label: str = "Part and position", before: Iterable[tuple[str, str]] = ()
    ) -> None:
        choices = [*before, *((as_value(spot), work.words(spot)) for spot in spots)]
        super().__init__(label=label, choices=choices)

    def clean(self, value: object) -> Spot:
        return from_value(super().clean(value))


def entered_at(work: Work) -> dict[Spot, dict[str, object]]:
    """The last entry of this round at each position."""
    return {from_value(str(entry["spot"])): entry for entry in work.entries if entry.get("spot")}


def open_spots(work: Work) -> list[Spot]:
    """Positions without an entry in this round. A part that was not there has nothing to be looked at."""
    done = entered_at(work)
    return [spot for spot in work.spots if spot not in done and is_there(work, spot)]


def is_there(work: Work, spot: Spot) -> bool:
    tagged = work.now.tagged.get(spot)
    return tagged is None or tagged.item_id is not None
