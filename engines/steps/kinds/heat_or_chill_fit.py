"""Two parts are joined while one is warm or the other cold: both temperatures, the time it took, seated, and still so when cold.

Each place is answered in that order. A joining that took too long or did not seat, or one that moved as it cooled, goes before
the inspector and is begun again with both temperatures, unless it is let pass as it is.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.asking import Question, check_answer, check_asked, figure, one_of
from engines.steps.deciding import is_let_pass
from engines.steps.details import unknown
from engines.steps.noticing import raise_at
from engines.steps.work import Content, Step, StepRefused, Work
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from measurements.metrology.temperature import SCALES, temperature
from shopfloor.people.models import Person

OUTER, INNER, TIME, SEATED, COLD, STILL = ("outer part", "inner part", "seconds", "seated", "cold again", "still seated")
ORDER = (OUTER, INNER, TIME, SEATED, COLD, STILL)
MEASURED = (OUTER, INNER, TIME, COLD)
GOOD, WRONG = "as asked", "not as asked"
YES, NO = "seated", "not seated"
NEEDED = ("places", "unit", "outer", "inner", "seconds", "check", "cold")
PART, BOUNDS = "part", ("least", "greatest")


class HeatOrChillFit(Step):
    name = "heat-or-chill-fit"
    words = "heat or chill fit"
    caution = (
        "Hot metal and deep cold burn at once: insulated dry gloves, face shield, and air, since boiling cold media displace it. "
        "Never heat with a flame what the data heat in an oven, and keep your fingers out of the bore."
    )
    has_own_paper = can_find = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        details = operation.details
        yield from unknown(self.name, details, NEEDED)
        missing = [name for name in NEEDED if name not in details]
        yield from (f"{name} is missing" for name in missing)
        if not missing:
            yield from _unfit(details)

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        asked = _asked(work)
        return Question(data, asked=": ".join(asked), answer=_field(work, *asked)) if asked else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        asked = _asked(work)
        check_asked(": ".join(asked) if asked else None, given)
        act, place = asked or ("", "")
        if act not in MEASURED:
            check_answer(given, (YES, NO))
        text = str(given["answer"]).strip()
        verdict = GOOD if (_is_good(work, act, text) if act in MEASURED else text == YES) else WRONG
        content = {"act": act, "place": place, "found": text, "unit": _unit(work, act), "asked_for": _range(work, act)}
        if verdict == WRONG and act in (TIME, SEATED, STILL):
            said = f"{text} {content['unit']}".strip()
            told = f"{place}: {act}: {said}, {content['asked_for']} is asked; it has to be joined anew or decided about."
            raise_at(work, None, told, by=by, at=at)
        return {**content, "verdict": verdict}

    def missing(self, work: Work) -> list[str]:
        left = {place: act for place in work.operation.details["places"] if (act := _next(work, place))}
        return [f"{place}: {_last_wrong(work, place)}{act} is not answered yet." for place, act in left.items()]

    def handover(self, work: Work) -> list[str]:
        last = {entry["place"]: entry for entry in work.entries}
        begun = [(place, entry) for place, entry in last.items() if (entry["act"], entry["verdict"]) != (STILL, GOOD)]
        return [f"{place}: “{entry['act']}” came last and was {entry['verdict']}. {_then(entry)}" for place, entry in begun]

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("verdict") == WRONG and content["act"] in (TIME, SEATED, STILL)

    def lines(self, work: Work) -> Content:
        asked = [(act, work.operation.details.get(key), _range(work, act)) for act, key in ((OUTER, "outer"), (INNER, "inner"))]
        return {
            "parts": [(act, part[PART], words) for act, part, words in asked if part],
            "asked": work.operation.details,
            "entries": work.entries,
        }


def _then(entry: Content) -> str:
    if entry["verdict"] == WRONG and entry["act"] in (TIME, SEATED, STILL):
        return "It is before the inspector, or is begun again with both temperatures."
    return "What is warm or cold does not wait."


def _asked(work: Work) -> tuple[str, str] | None:
    return next(((act, place) for place in work.operation.details["places"] if (act := _next(work, place))), None)


def _next(work: Work, place: str) -> str:
    """What is asked at a place: in order, the same again where a temperature was wrong, from the start where the joining was."""
    mine = [each for each in zip(work.entries, work.moments, strict=True) if each[0]["place"] == place]
    if not mine:
        return ORDER[0]
    last, moment = mine[-1]
    if last["verdict"] == WRONG and last["act"] in (OUTER, INNER, COLD):
        return str(last["act"])
    if last["verdict"] == WRONG and not is_let_pass(work, place, [moment]):
        return ORDER[0]
    done = ORDER.index(last["act"])
    return ORDER[done + 1] if done + 1 < len(ORDER) else ""


def _last_wrong(work: Work, place: str) -> str:
    mine = [entry for entry in work.entries if entry["place"] == place]
    return f"{mine[-1]['act']} was not as asked; " if mine and mine[-1]["verdict"] == WRONG else ""


def _field(work: Work, act: str, place: str) -> forms.Field:
    details = work.operation.details
    if act in (SEATED, STILL):
        when = "It is cold again" if act == STILL else "Joined"
        return one_of(f"{place}. {when}: {details['check']}", YES, NO)
    labels = {
        OUTER: f"Temperature of {details['outer'][PART]}, {details['unit']}",
        INNER: f"Temperature of {details['inner'][PART]}, {details['unit']}",
        TIME: "Seconds from leaving the heat or the cold until it was home",
        COLD: f"Temperature of the joint now, {details['unit']}",
    }
    return figure(f"{place}: {labels[act]}", f"Asked: {_range(work, act)}.")


def _bounds(work: Work, act: str) -> Mapping[str, str]:
    details = work.operation.details
    if act == TIME:
        return {"greatest": details["seconds"]}
    return dict(details[{OUTER: "outer", INNER: "inner", COLD: "cold"}[act]])


def _is_good(work: Work, act: str, text: str) -> bool:
    """Exact, against the bounds that the data give; one of them may be open."""
    bounds = _bounds(work, act)
    try:
        found = read_number(text)
        if act != TIME:
            temperature(found, work.operation.details["unit"], "K")
    except MeasureError as error:
        raise StepRefused(f"{str(error)[0].upper()}{str(error)[1:].rstrip('.')}.") from None
    if act == TIME and found < 0:
        raise StepRefused("Time does not run backwards: look at the clock again.")
    low, high = (read_number(bounds[name]) if name in bounds else found for name in BOUNDS)
    return low <= found <= high


def _range(work: Work, act: str) -> str:
    if act in (SEATED, STILL):
        return str(work.operation.details["check"])
    bounds, unit = _bounds(work, act), _unit(work, act)
    said = [f"{words} {bounds[name]}" for name, words in zip(BOUNDS, ("at least", "at most"), strict=True) if name in bounds]
    return f"{' and '.join(said)} {unit}"


def _unit(work: Work, act: str) -> str:
    return {TIME: "s", SEATED: "", STILL: ""}.get(act, str(work.operation.details["unit"]))


def _unfit(details: Mapping[str, Any]) -> Iterator[str]:
    places = details["places"]
    if not isinstance(places, list) or not places or len(set(map(str, places))) < len(places):
        yield "places are a list of texts, each once"
    if not isinstance(details["check"], str):
        yield "check says in one text how it is seen that it is seated"
    if details["unit"] not in SCALES:
        yield f"unit is a scale of temperature, one of {', '.join(SCALES)}"
    if not (seconds := _number(details["seconds"])) or seconds < 0:
        yield f"seconds “{details['seconds']}” are no number above zero"
    for name, keys in {"outer": (PART, *BOUNDS), "inner": (PART, *BOUNDS), "cold": BOUNDS}.items():
        yield from _unfit_part(name, details[name], keys)


def _unfit_part(name: str, given: object, keys: tuple[str, ...]) -> Iterator[str]:
    if not isinstance(given, dict) or not set(given) <= set(keys) or (PART in keys and PART not in given):
        yield f"{name} says {', '.join(keys)}"
        return
    bounds = [_number(given[each]) for each in BOUNDS if each in given]
    if not bounds:
        yield f"{name} has no temperature: give least, greatest or both"
    elif None in bounds:
        yield f"a temperature of {name} is no number"
    elif len(bounds) == 2 and bounds[0] > bounds[1]:
        yield f"the least of {name} is above its greatest"


def _number(text: object) -> Any:
    try:
        return read_number(str(text))
    except MeasureError:
        return None
