"""Before something is closed: every numbered closure comes out, tools and rags are counted, then each closure goes in again.

A count holds only until a closure comes out after it. Where the data say that the shaft is turned here, the hold-down is
asked first: with it off, the shaft is turned only when every plate that the data name is recorded as fitted.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.asking import Question, check_answer, check_asked, figure, one_of, typed
from engines.steps.deciding import is_let_pass
from engines.steps.details import unknown
from engines.steps.noticing import raise_at
from engines.steps.work import Content, Step, StepRefused, Work
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from shopfloor.people.models import Person

OUT, COUNT, HOLD_DOWN, PLATE, TURN, IN = ("closure out", "count", "hold-down", "plate", "turn the shaft", "closure in again")
ON, OFF = "on", "off"
FITTED, TURNED = "fitted", "turned"
AGREES, DIFFERS = "agrees", "does not agree"
CLOSURES = "closures on the tray"
NEEDED, OTHERS = ("closures", "tools", "rags"), ("shaft",)
SHAFT = ("turned", "hold_down", "plates")


class ClosureCount(Step):
    name = "closure-count"
    words = "count of closures, tools and rags"
    caution = (
        "Whatever is left inside destroys the engine. Count with your own eyes, and never turn the shaft while the hold-down is "
        "off and no plates are fitted: bearings shift, and fingers are caught."
    )
    has_own_paper = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        details = operation.details
        yield from unknown(self.name, details, (*NEEDED, *OTHERS))
        yield from (f"{name} is missing" for name in NEEDED if name not in details)
        if "closures" in details:
            yield from _unfit(details["closures"], "closures", ("number", "place"))
        if "tools" in details:
            yield from _unfit(details["tools"], "tools", ("tool", "count"))
            yield from _no_counts(details["tools"])
        if "rags" in details and not _is_count(details["rags"]):
            yield "rags are a whole number"
        if "shaft" in details:
            yield from _unfit_shaft(details["shaft"])

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        asked = self._asked(work)
        return Question(data, asked=asked, **self._fields(work, asked)) if asked else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        asked = self._asked(work)
        check_asked(asked, given)
        act, _, what = str(asked).partition(": ")
        if act in (OUT, IN):
            return self._moved(work, act, str(given["number"]).strip())
        if act == COUNT:
            return self._counted(work, what, str(given["counted"]).strip(), by, at)
        if act == PLATE and given["answer"] == ON:
            act = HOLD_DOWN
        return self._answered(work, act, given)

    def missing(self, work: Work) -> list[str]:
        asked = self._asked(work)
        if asked is None:
            return []
        act, _, what = asked.partition(": ")
        if act in (OUT, IN):
            return [f"Closure {each}: not {'out' if act == OUT else 'in again'} yet." for each in self._left(work, act)]
        if act == COUNT:
            counted = _last_count(_since_out(work), what)
            return [f"{what}: the count does not agree." if counted else f"{what}: not counted since the last closure came out."]
        return [{HOLD_DOWN: "The hold-down was not looked at.", TURN: "The shaft was not turned yet."}.get(act, _no_plates(what))]

    def lines(self, work: Work) -> Content:
        out, back = _numbers(work, OUT), _numbers(work, IN)
        closures = [(each["number"], each["place"], each["number"] in out, each["number"] in back) for each in _closures(work)]
        counts = [each for each in work.entries if each["act"] == COUNT]
        others = [each for each in work.entries if each["act"] in (HOLD_DOWN, PLATE, TURN)]
        return {"closures": closures, "counts": counts, "others": others, "entries": work.entries}

    def _asked(self, work: Work) -> str | None:
        """What the next screen asks; None when everything is done."""
        if self._left(work, OUT):
            return OUT
        for what, expected in _expected(work).items():
            last = _last_count(_since_out(work), what)
            if last is None or (last["counted"] != expected and not _is_let_pass(work, what, last)):
                return f"{COUNT}: {what}"
        return self._about_shaft(work) or (IN if self._left(work, IN) else None)

    def _about_shaft(self, work: Work) -> str | None:
        shaft = work.operation.details.get("shaft")
        if not shaft or any(each["act"] == TURN for each in work.entries):
            return None
        answers = [each["answer"] for each in work.entries if each["act"] == HOLD_DOWN]
        if not answers:
            return HOLD_DOWN
        left = [each for each in shaft["plates"] if each not in _numbers(work, PLATE)]
        return f"{PLATE}: {left[0]}" if answers[-1] == OFF and left else TURN

    def _fields(self, work: Work, asked: str) -> dict[str, forms.Field]:
        act, _, what = asked.partition(": ")
        shaft = work.operation.details.get("shaft", {})
        left = ", ".join(self._left(work, act)) if act in (OUT, IN) else ""
        fields: dict[str, dict[str, forms.Field]] = {
            OUT: {"number": typed("Which closure did you take out? Its number", f"Still in: {left}.")},
            IN: {"number": typed("Which closure did you put in again? Its number", f"Still out: {left}.")},
            COUNT: {"counted": figure(f"How many did you count: {what}?", "Count them now, do not copy the list.")},
            HOLD_DOWN: {"answer": one_of(f"Hold-down: {shaft.get('hold_down', '')}", ON, OFF)},
            PLATE: {"answer": one_of(f"The hold-down is off. Plate {what}, or the hold-down is on now", FITTED, ON)},
            TURN: {"answer": one_of(f"The shaft: {shaft.get('turned', '')}", TURNED)},
        }
        return fields[act]

    def _left(self, work: Work, act: str) -> list[str]:
        done = _numbers(work, act)
        return [each["number"] for each in _closures(work) if each["number"] not in done]

    def _moved(self, work: Work, act: str, number: str) -> Content:
        left = self._left(work, act)
        if number not in left:
            raise StepRefused(f"“{number}” is none of those that are left: {', '.join(left)}. Read the number on the closure.")
        place = next(each["place"] for each in _closures(work) if each["number"] == number)
        return {"act": act, "number": number, "place": place}

    def _counted(self, work: Work, what: str, text: str, by: Person, at: datetime) -> Content:
        if not _is_count(text):
            raise StepRefused(f"“{text[:40]}” is no whole number: count {what} again, and type how many there are.")
        counted, expected = f"{read_number(text):f}", _expected(work)[what]
        verdict = AGREES if counted == expected else DIFFERS
        if verdict == DIFFERS:
            raise_at(work, None, f"{what}: {counted} counted, {expected} belong there.", by=by, at=at)
        return {"act": COUNT, "what": what, "counted": counted, "expected": expected, "verdict": verdict}

    def _answered(self, work: Work, act: str, given: Mapping[str, Any]) -> Content:
        shaft = work.operation.details["shaft"]
        check_answer(given, {HOLD_DOWN: (ON, OFF), PLATE: (FITTED,), TURN: (TURNED,)}[act])
        if act == HOLD_DOWN:
            return {"act": act, "answer": given["answer"], "of": shaft["hold_down"]}
        if act == PLATE:
            return {"act": act, "number": str(self._asked(work)).partition(": ")[2], "answer": given["answer"]}
        return {"act": act, "answer": given["answer"], "of": shaft["turned"]}


def _closures(work: Work) -> list[Mapping[str, str]]:
    return list(work.operation.details["closures"])


def _numbers(work: Work, act: str) -> set[str]:
    return {each["number"] for each in work.entries if each["act"] == act}


def _expected(work: Work) -> dict[str, str]:
    details = work.operation.details
    tools = {each["tool"]: f"{read_number(each['count']):f}" for each in details["tools"]}
    return {CLOSURES: str(len(details["closures"])), **tools, "rags": f"{read_number(details['rags']):f}"}


def _since_out(work: Work) -> list[Content]:
    """What was entered after the last closure came out: only that counts as a count before the closing."""
    last = max((place for place, each in enumerate(work.entries) if each["act"] == OUT), default=-1)
    return list(work.entries[last + 1 :])


def _last_count(entries: list[Content], what: str) -> Content | None:
    return next((each for each in reversed(entries) if each["act"] == COUNT and each["what"] == what), None)


def _is_let_pass(work: Work, what: str, count: Content) -> bool:
    """Such as a rag that was found in the bin and decided about."""
    moment = next(at for entry, at in zip(work.entries, work.moments, strict=True) if entry is count)
    return is_let_pass(work, what, [moment])


def _no_plates(number: str) -> str:
    return f"The hold-down is off and plate {number} is not recorded as fitted: the shaft is not turned."


def _unfit(given: object, name: str, keys: tuple[str, str]) -> Iterator[str]:
    if not isinstance(given, list) or not given or not all(isinstance(each, dict) and set(each) == set(keys) for each in given):
        yield f"{name} are a list, each with {' and '.join(keys)}"
        return
    first = [each[keys[0]] for each in given]
    yield from (f"{name} have “{each}” twice" for each in dict.fromkeys(map(str, first)) if first.count(each) > 1)


def _no_counts(tools: object) -> Iterator[str]:
    rows = [each for each in tools if isinstance(each, dict)] if isinstance(tools, list) else []
    yield from (f"of {each.get('tool')} a whole number is counted" for each in rows if not _is_count(each.get("count")))
    yield from (f"a tool cannot be called {each['tool']}" for each in rows if each.get("tool") in (CLOSURES, "rags"))


def _unfit_shaft(shaft: object) -> Iterator[str]:
    if not isinstance(shaft, dict) or set(shaft) != set(SHAFT):
        yield f"shaft says {', '.join(SHAFT)}"
    elif (
        not isinstance(shaft["plates"], list) or not shaft["plates"] or len(set(map(str, shaft["plates"]))) < len(shaft["plates"])
    ):
        yield "plates are a list of numbers, each once"


def _is_count(text: object) -> bool:
    try:
        number = read_number(str(text))
    except MeasureError:
        return False
    return number >= 0 and number == number.to_integral_value() and number.as_tuple().exponent == 0
