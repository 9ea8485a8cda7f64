"""A value is read, the product computes from the permitted combinations what to fit, that is fitted, and the value is read again.

What is fitted now is asked first. Then every position is read; where one is outside its limits something is fitted and all
are read again, until they are within, or the inspector let it pass.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.adjusting import wrong_adjustment
from engines.steps.asking import Question, check_asked, figure, typed
from engines.steps.deciding import is_let_pass
from engines.steps.noticing import raise_at
from engines.steps.second_look import SecondLook, check_second_look
from engines.steps.selecting import (
    ANOTHER,
    FILED,
    FILING,
    NO_SHIM,
    OTHER,
    SHIMS,
    Selected,
    is_within,
    method_of,
    names_in,
    select,
    wrong_shims,
)
from engines.steps.work import Content, Step, StepRefused, Work
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from shopfloor.people.models import Person

FOUND, READ, FIT = "fitted now", "read", "fit"
WITHIN, OUTSIDE = "within limits", "outside"
AT = " at "


class ReadQuestion(SecondLook, Question):
    """Two positions that read the same are looked at twice."""

    def __init__(self, data: Mapping[str, Any] | None, *, before: str, **given: Any) -> None:
        super().__init__(data, **given)
        self.ask_again("read", before)


@dataclass(frozen=True)
class Stand:
    """How far the adjustment of one place has come: what is fitted, None before it was asked, and what was read with it."""

    fitted: str | None
    read: Mapping[str, str]
    fittings: int
    moments: list[datetime]

    def left(self, positions: list[str]) -> list[str]:
        return [each for each in positions if each not in self.read]


class AdjustAndSelect(Step):
    name = "adjust-and-select"
    words = "adjust and select"
    caution = (
        "Pressure off and the shaft blocked before a spring, a plug or a shim is taken out; a compressed spring flies. Engage no "
        "gear with a finger in its mesh."
    )
    has_own_paper = can_find = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from wrong_adjustment(operation.details)

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        asked = _asked(work)
        if asked is None:
            return None
        act, place, position = asked
        words, details = _in_words(asked), work.operation.details
        if act == READ:
            label = f"{details['what'].capitalize()}, {place}{f', {position}' if position else ''}, {details['unit']}"
            return ReadQuestion(data, asked=words, read=figure(label, "As you read it."), before=_before(work, place))
        told = _told(work, place) if act == FIT else Selected("", "")
        return Question(data, asked=words, fitted=_fitted_field(details, act, place, told))

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        asked = _asked(work)
        check_asked(_in_words(asked) if asked else None, given)
        act, place, position = asked or ("", "", "")
        if act == READ:
            return self._read(work, place, position, given, by, at)
        return _fitted(work, act, place, str(given["fitted"]).strip())

    def missing(self, work: Work) -> list[str]:
        return [words for place in _places(work) if (words := _missing_at(work, place))]

    def is_not_accepted(self, content: Content) -> bool:
        return bool(content.get("verdict") == OUTSIDE and content["after_fitting"])

    def lines(self, work: Work) -> Content:
        asked = _asked(work)
        told = _told(work, asked[1]) if asked and asked[0] == FIT else None
        return {"asked": work.operation.details, "entries": work.entries, "told": told, "told_at": asked[1] if asked else ""}

    def _read(self, work: Work, place: str, position: str, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
        details, text = work.operation.details, str(given["read"]).strip()
        _check_figure(text)
        check_second_look(_before(work, place), text, given)
        stand, verdict = _stand(work, place), WITHIN if is_within(details, text) else OUTSIDE
        read = {**stand.read, position: text}
        told = select(details, stand.fitted or NO_SHIM, list(read.values())) if len(read) == len(_positions(work)) else None
        helpless = told is not None and not told.fit and not all(is_within(details, each) for each in read.values())
        if helpless or (verdict == OUTSIDE and stand.fittings and details.get("raises")):
            where, limits = f", {position}" if position else "", f"{details['least']} to {details['greatest']}"
            words = f"{place}: {details['what']} {text} {details['unit']}{where}, {limits} are asked."
            raise_at(work, None, f"{words} {told.words if told and helpless else ''}".strip(), by=by, at=at)
        return {
            "act": READ,
            "place": place,
            "position": position,
            "read": text,
            "unit": details["unit"],
            "verdict": verdict,
            "after_fitting": "yes" if stand.fittings else "",
        }


def _in_words(asked: tuple[str, str, str]) -> str:
    act, place, position = asked
    return f"{act}: {place}{AT * bool(position)}{position}"


def _asked(work: Work) -> tuple[str, str, str] | None:
    for place in _places(work):
        stand = _stand(work, place)
        if stand.fitted is None:
            return FOUND, place, ""
        if stand.fitted == OTHER:
            return FIT, place, ""
        if left := stand.left(_positions(work)):
            return READ, place, left[0]
        if not _is_done(work, place, stand):
            return FIT, place, ""
    return None


def _is_done(work: Work, place: str, stand: Stand) -> bool:
    within = all(is_within(work.operation.details, each) for each in stand.read.values())
    return within or is_let_pass(work, place, stand.moments)


def _missing_at(work: Work, place: str) -> str:
    stand, what = _stand(work, place), work.operation.details["what"]
    if stand.fitted is None:
        return f"{place}: nobody said what is fitted now."
    if stand.fitted == OTHER:
        return f"{place}: what is fitted is not permitted. Fit what is, then read the {what}."
    if left := stand.left(_positions(work)):
        return f"{place}: the {what} is not read{f' at {left[0]}' if left[0] else ''}."
    return "" if _is_done(work, place, stand) else f"{place}: the {what} is outside its limits."


def _stand(work: Work, place: str) -> Stand:
    both = [(each, moment) for each, moment in zip(work.entries, work.moments, strict=True) if each["place"] == place]
    mine = [each for each, _ in both]
    fitted = [index for index, each in enumerate(mine) if each["act"] != READ]
    since = both[fitted[-1] + 1 :] if fitted else both
    now = mine[fitted[-1]]["fitted"] if fitted else (FILED if method_of(work.operation.details) == FILING else None)
    read = {each["position"]: each["read"] for each, _ in since}
    fittings = len([each for each in mine if each["act"] == FIT])
    return Stand(now, read, fittings, [moment for _, moment in since])


def _told(work: Work, place: str) -> Selected:
    stand = _stand(work, place)
    if not stand.read:
        return Selected("", "What is fitted is on no list of the data: fit a permitted one and read it.")
    return select(work.operation.details, stand.fitted or NO_SHIM, list(stand.read.values()))


def _before(work: Work, place: str) -> str:
    read = list(_stand(work, place).read.values())
    return read[-1] if read else ""


def _fitted_field(details: Mapping[str, Any], act: str, place: str, told: Selected) -> forms.Field:
    label = f"What is fitted now: {place}?" if act == FOUND else f"What did you fit: {place}?"
    help_text = f"Computed: {told.fit}; {told.words}." if told.fit else told.words
    if method_of(details) == SHIMS:
        return typed(label, f"Thicknesses ({details['unit']}), with a comma between; 0 for none. {help_text}".strip())
    names = [*names_in(details), *([OTHER] if act == FOUND else [])]
    return forms.ChoiceField(label=label, choices=[("", "choose"), *((each, each) for each in names)], help_text=help_text)


def _fitted(work: Work, act: str, place: str, text: str) -> Content:
    details, told = work.operation.details, _told(work, place) if act == FIT else Selected("", "")
    if method_of(details) == SHIMS:
        if wrong := wrong_shims(details, text, from_the_box=act == FIT):
            raise StepRefused(f"“{text[:60]}” cannot be fitted here: {wrong}.")
    elif text not in [*names_in(details), *([OTHER] if act == FOUND else [])]:
        raise StepRefused(f"“{text[:60]}” is not permitted. The data permit: {', '.join(names_in(details))}.")
    if method_of(details) == FILING and text == FILED and not told.fit:
        raise StepRefused(f"{told.words} Choose “{ANOTHER}” when it is fitted.")
    return {"act": act, "place": place, "fitted": text, "computed": told.fit, "expected": told.words}


def _check_figure(text: str) -> None:
    try:
        negative = read_number(text) < 0
    except MeasureError as error:
        raise StepRefused(f"{str(error)[0].upper()}{str(error)[1:]}.") from None
    if negative:
        raise StepRefused("It cannot be below nought. Set the gauge anew, and read it again.")


def _places(work: Work) -> list[str]:
    return list(work.operation.details.get("places", [work.operation.title]))


def _positions(work: Work) -> list[str]:
    return list(work.operation.details.get("positions", [""]))
