"""Parts are tested for cracks by the sheet of the data: bath and lamp checked in their time, part by part examined, each
indication recorded and judged by the criteria, the part demagnetised and cleaned.

A relevant indication beyond the criteria, or of a sort that they do not name, goes before the inspector.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from engines.catalogue.data import Operation, PackData
from engines.steps.asking import Question, check_asked
from engines.steps.crack_data import (
    asked_for,
    at_each_part,
    is_again_after_rework,
    wrong_crack_test,
)
from engines.steps.crack_forms import FOUND, question
from engines.steps.crack_found import BEYOND, in_words, kept
from engines.steps.examined import (
    BATH,
    CHECK,
    CLEANED,
    DEMAGNETISED,
    GOOD,
    INDICATION,
    LOOK,
    TECHNIQUE,
    is_doubted,
    is_in_time,
    item_at,
    of_part,
)
from engines.steps.noticing import raise_at
from engines.steps.spots import as_value, is_there
from engines.steps.work import PARTS, Content, Spot, Step, Work
from shopfloor.people.models import Person

LEFT = {
    LOOK: "it is not examined to its end.",
    INDICATION: "an indication was seen and is not recorded.",
    DEMAGNETISED: "it is not demagnetised.",
    CLEANED: "it is not cleaned after the test.",
}
NOWHERE: Spot = ("", "")
Asked = tuple[str, Spot, str]


class CrackTest(Step):
    name = "crack-test"
    words = "crack test"
    names_what, needs_names = PARTS, True
    caution = (
        "The lamp harms eyes and skin: filter whole, never look into it. Bath, penetrant and developer harm lungs and may burn: "
        "gloves, air, no flame. Current burns where contacts are loose, and its field stops a pacemaker: keep away with one."
    )
    has_own_paper = can_find = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from wrong_crack_test(self.name, operation)

    def level(self, operation: Operation) -> int:
        return int(operation.details["level"])

    def is_again_after_rework(self, operation: Operation) -> bool:
        return is_again_after_rework(operation.details)

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        asked = _asked(work)
        if asked is None:
            return None
        act, spot, what = asked
        part = f"{work.words(spot)}: " if spot != NOWHERE else ""
        return question(data, files, _as_text(asked), work.operation.details, act, part, what, _before(work, act, what))

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        asked = _asked(work)
        check_asked(_as_text(asked) if asked else None, given)
        act, spot, what = asked or ("", NOWHERE, "")
        where = {"act": act, "what": what, "spot": "", "position": "", "item": ""}
        if spot != NOWHERE:
            where |= {"spot": as_value(spot), "position": work.words(spot), "item": item_at(work, spot)}
        found = kept(work.operation.details, act, what, given, _before(work, act, what), at)
        if found["verdict"] == BEYOND:
            raise_at(work, spot, in_words(work.words(spot), found), by=by, at=at)
        return where | found

    def missing(self, work: Work) -> list[str]:
        left = [(spot, *following) for spot in work.spots if (following := _next(work, spot))]
        doubted = {spot: "what was seen of it counts no more, it is tested anew: " for spot, *_ in left if is_doubted(work, spot)}
        return [
            f"{work.words(spot)}: {doubted.get(spot, '')}{LEFT.get(act, f'{what} is not checked.')}" for spot, act, what in left
        ]

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("verdict") == BEYOND

    def lines(self, work: Work) -> Content:
        details = work.operation.details
        wanted = [(each["check"], asked_for(each), each.get("hours", "")) for each in details["checks"]]
        criteria = [(each["sort"], f"at most {each['greatest']} {each['unit']}") for each in details["criteria"]]
        bath = asked_for(details["bath"]) if "unit" in details["bath"] else ""
        residual = f"at most {details['residual']['greatest']} {details['residual']['unit']}" if "residual" in details else ""
        told = {"wanted": wanted, "criteria": criteria, "bath_asked": bath, "residual": residual}
        return {**told, "asked": details, "entries": work.entries}


def _asked(work: Work) -> Asked | None:
    """Part by part; nothing is examined before sheet, bath and lamp are in order and in their time."""
    left = next(((spot, *following) for spot in work.spots if (following := _next(work, spot))), None)
    if left is None:
        return None
    spot, act, what = left
    before = _setup(work) if act in (CHECK, LOOK) else None
    return before or (act, spot, what)


def _as_text(asked: Asked) -> str:
    act, spot, what = asked
    return ": ".join(filter(None, (act, *spot, what)))


def _setup(work: Work) -> Asked | None:
    details = work.operation.details
    if not any(entry["act"] == TECHNIQUE for entry in work.entries):
        return TECHNIQUE, NOWHERE, ""
    if not is_in_time(work, BATH, "", details["bath"]):
        return BATH, NOWHERE, ""
    held = (each for each in details["checks"] if "hours" in each)
    return next(((CHECK, NOWHERE, each["check"]) for each in held if not is_in_time(work, CHECK, each["check"], each)), None)


def _next(work: Work, spot: Spot) -> tuple[str, str] | None:
    """What comes at a part, of a check its name; None when nothing does, or the part was never there."""
    if not is_there(work, spot):
        return None
    details, mine = work.operation.details, of_part(work, spot)
    right = {(entry["act"], entry["what"]) for entry in mine if entry["verdict"] == GOOD}
    if unchecked := [name for name in at_each_part(details) if (CHECK, name) not in right]:
        return CHECK, unchecked[0]
    seen = [entry for entry in mine if entry["act"] in (LOOK, INDICATION)]
    if not seen or seen[-1]["act"] == INDICATION:
        return LOOK, ""
    if seen[-1]["found"] == FOUND:
        return INDICATION, ""
    ends = ((DEMAGNETISED,) if "residual" in details else ()) + (CLEANED,)
    return next(((act, "") for act in ends if (act, "") not in right), None)


def _before(work: Work, act: str, what: str) -> str:
    """What the instrument showed the last time that this was read."""
    return next((str(each["found"]) for each in reversed(work.entries) if (each["act"], each["what"]) == (act, what)), "")
