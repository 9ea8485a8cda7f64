"""What becomes of each accessory: overhauled here, exchanged, sent to a vendor, returned untouched, or never received.

The data say which of these they permit for it. What is said agrees with the tags: an exchange has its new part, one that was
not received was not there, and every other fate is that of the part that came.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.asking import Question, check_answer, check_asked, one_of, typed
from engines.steps.details import is_texts, unknown
from engines.steps.spots import as_value, entered_at
from engines.steps.work import PARTS, Content, Spot, Step, StepRefused, Work
from shopfloor.people.models import Person

HERE, EXCHANGED, VENDOR, UNTOUCHED, NOT_RECEIVED = FATES = (
    "overhauled here",
    "exchanged",
    "overhauled by a vendor",
    "returned untouched",
    "not received",
)
WITHOUT_PAPER = (UNTOUCHED, NOT_RECEIVED)


class AccessoryFate(Step):
    name = "accessory-fate"
    words = "fate of accessories"
    names_what, needs_names = PARTS, True
    caution = "An accessory that nobody opened looks like one that was overhauled. Read its plate and its tag before you answer."
    has_own_paper = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from unknown(self.name, operation.details, ("permitted",))
        permitted = operation.details.get("permitted")
        if not isinstance(permitted, dict) or set(permitted) != set(operation.names):
            yield "permitted says for each of its parts which fates the data allow"
            return
        for line, fates in permitted.items():
            if not is_texts(fates) or not set(fates) <= set(FATES):
                yield f"the fates of “{line}” are of these, each once: {', '.join(FATES)}"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        spot = _next(work)
        return Question(data, asked=work.words(spot), **_fields(work, spot)) if spot else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        spot = _next(work)
        check_asked(work.words(spot) if spot else None, given)
        assert spot
        check_answer(given, _permitted(work, spot))
        fate, paper = str(given["answer"]), str(given["paper"]).strip()
        _check_tags(work, spot, fate)
        if not paper and fate not in WITHOUT_PAPER:
            raise StepRefused("Give the number of the tag, order or certificate that says so.")
        tagged = work.now.tagged[spot]
        item = str(tagged.item) if tagged.item else ""
        return {"spot": as_value(spot), "position": work.words(spot), "fate": fate, "paper": paper, "item": item}

    def missing(self, work: Work) -> list[str]:
        done = _that_hold(work)
        return [f"{work.words(spot)}: nobody has said what becomes of it." for spot in work.spots if spot not in done]


def fates_in(entries: list[Content]) -> dict[str, str]:
    """The last word about each position, by its value."""
    return {entry["spot"]: entry["fate"] for entry in entries}


def _next(work: Work) -> Spot | None:
    done = _that_hold(work)
    return next((spot for spot in work.spots if spot not in done), None)


def _that_hold(work: Work) -> set[Spot]:
    """Positions whose last word is about the part that is there now."""
    return {spot for spot, entry in entered_at(work).items() if entry["item"] == _item(work, spot)}


def _item(work: Work, spot: Spot) -> str:
    tagged = work.now.tagged.get(spot)
    return str(tagged.item) if tagged and tagged.item else ""


def _permitted(work: Work, spot: Spot) -> list[str]:
    return list(work.operation.details["permitted"][spot[0]])


def _fields(work: Work, spot: Spot) -> dict[str, forms.Field]:
    return {
        "answer": one_of(f"{work.words(spot)}: what becomes of it?", *_permitted(work, spot)),
        "paper": typed("Number of its tag, order or certificate", "Not needed where nobody touched it.", required=False),
    }


def _check_tags(work: Work, spot: Spot, fate: str) -> None:
    tagged = work.now.tagged.get(spot)
    if tagged is None:
        raise StepRefused(f"{work.words(spot)} is not tagged: say first whether it came with the engine.")
    if (tagged.item is None) != (fate == NOT_RECEIVED):
        was = "was not there when the engine was stripped" if tagged.item is None else f"is on record as {tagged.item}"
        raise StepRefused(f"{work.words(spot)} {was}. Say what agrees with that, or put the record right first.")
    if tagged.item and (tagged.in_place_of_id is not None) != (fate == EXCHANGED):
        came = "Another part has taken its place" if tagged.in_place_of_id else "No other part has taken its place"
        raise StepRefused(f"{came}: an exchange is entered on its discrepancy, and then said here.")
