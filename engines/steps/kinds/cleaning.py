"""A part is cleaned with what its material bears: plugs out, masked before it is blasted, and every passage proved clear.

Blasting media are removed, and another person than those who blasted sees that none is left. A passage is proved after the
last medium that touched the part. One that stays blocked goes before the inspector.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.asking import Question, check_answer, check_asked, one_of, typed
from engines.steps.cleaning_data import every_medium, is_blasted, masked_first, passages, permitted, plugs, wrong_cleaning
from engines.steps.deciding import is_let_pass
from engines.steps.noticing import raise_at
from engines.steps.spots import as_value, is_there
from engines.steps.work import PARTS, Content, Spot, Step, StepRefused, Work
from shopfloor.people.models import Person

PLUGS, MEDIUM, MASKED, REMOVED = ("plugs out", "medium", "masked", "blasting media removed")
WITNESS, CLEAN, PASSAGE = ("removal witnessed", "clean", "passage")
NONE_LEFT, SOME_LEFT = "none is left", "some is left"
IS_CLEAN, ANOTHER = "clean", "not yet, it is cleaned again"
NOT_CLEAR, BLOCKED = "not clear, the part is cleaned again", "stays blocked"
WRONG = (SOME_LEFT, ANOTHER, NOT_CLEAR, BLOCKED)
LEFT = {
    PLUGS: "its plugs are not out yet.",
    MEDIUM: "it is to be cleaned.",
    MASKED: "it is to be blasted, and is not masked yet.",
    REMOVED: "the blasting media are not removed yet.",
    WITNESS: "no second person has seen that the blasting media are gone.",
    CLEAN: "nobody has said that it is clean.",
}
Asked = tuple[str, Spot, str]


class Cleaning(Step):
    name = "cleaning"
    words = "cleaning"
    names_what, needs_names = PARTS, True
    caution = (
        "Hot tanks scald, and what cleans metal burns eyes and skin and gives off fumes: face shield, gloves, apron, air drawn "
        "off, water for the eyes at hand. Lower parts in slowly. Blasting media hide in oil passages and ruin bearings."
    )
    judged_by_words = has_own_paper = can_find = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        yield from wrong_cleaning(self.name, operation)

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        asked = _asked(work)
        return Question(data, asked=_as_text(asked), answer=_field(work, *asked)) if asked else None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        asked = _asked(work)
        check_asked(_as_text(asked) if asked else None, given)
        act, spot, what = asked or ("", ("", ""), "")
        found = _checked(work, act, spot, given, by)
        where = {"act": act, "spot": as_value(spot), "position": work.words(spot), "what": what}
        if found == BLOCKED:
            raise_at(work, spot, f"{work.words(spot)}, {what}: stays blocked after cleaning.", by=by, at=at)
        return {**where, "found": found, "verdict": "not as asked" if found in WRONG else "as asked"}

    def missing(self, work: Work) -> list[str]:
        left = ((spot, *following) for spot in work.spots if (following := _next(work, spot)))
        return [f"{work.words(spot)}: {LEFT.get(act, f'{what} is not proved clear.')}" for spot, act, what in left]

    def refuses_signer(self, work: Work, by: Person) -> list[str]:
        mine = {entry["act"] for entry, hand in zip(work.entries, work.hands, strict=True) if hand == by.pk}
        return ["You witnessed this work; whoever did it signs it."] if mine == {WITNESS} else []

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("found") == BLOCKED

    def lines(self, work: Work) -> Content:
        details = work.operation.details
        parts = [(work.data.line_by_code[each].name, each) for each in work.operation.names]
        told = [(part, details["materials"][each], permitted(details, each)) for part, each in parts]
        return {"told": told, "entries": work.entries}


def _asked(work: Work) -> Asked | None:
    """Part by part; whoever waits for a witness goes on with the next part."""
    left = [(act, spot, what) for spot in work.spots if (following := _next(work, spot)) for act, what in [following]]
    able = [each for each in left if each[0] != WITNESS or work.by not in _blasters(work, each[1])]
    return next(iter(able or left), None)


def _as_text(asked: Asked) -> str:
    act, spot, what = asked
    return ": ".join(filter(None, (act, *spot, what)))


def _next(work: Work, spot: Spot) -> tuple[str, str] | None:
    """What comes at a part, with the passage where it is one; None when nothing does, or the part was never there."""
    if not is_there(work, spot):
        return None
    details, mine = work.operation.details, _entries(work, spot)
    if not mine:
        return (PLUGS if plugs(details, spot[0]) else MEDIUM), ""
    last, moment = mine[-1]
    act = _after(details, last)
    return (act, "") if act != PASSAGE else _passage(work, spot, last, moment)


def _after(details: Mapping[str, Any], last: Content) -> str:
    follows = {
        PLUGS: MEDIUM,
        MEDIUM: MASKED if is_blasted(details, last["found"]) else CLEAN,
        MASKED: REMOVED,
        REMOVED: WITNESS,
        WITNESS: REMOVED if last["found"] == SOME_LEFT else CLEAN,
        CLEAN: MEDIUM if last["found"] == ANOTHER else PASSAGE,
        PASSAGE: MEDIUM if last["found"] == NOT_CLEAR else PASSAGE,
    }
    return follows[last["act"]]


def _passage(work: Work, spot: Spot, last: Content, moment: datetime) -> tuple[str, str] | None:
    if last["found"] == BLOCKED and not is_let_pass(work, f"{work.words(spot)}, {last['what']}", [moment]):
        return PASSAGE, last["what"]
    every = passages(work.operation.details, spot[0])
    left = every[every.index(last["what"]) + 1 :] if last["act"] == PASSAGE else every
    return (PASSAGE, left[0]) if left else None


def _entries(work: Work, spot: Spot) -> list[tuple[Content, datetime]]:
    return [each for each in zip(work.entries, work.moments, strict=True) if each[0]["spot"] == as_value(spot)]


def _blasters(work: Work, spot: Spot) -> set[int]:
    """Whose hands are in the blasting of a part: everybody since its medium was chosen, but those who only looked."""
    mine = [each for each in zip(work.entries, work.hands, strict=True) if each[0]["spot"] == as_value(spot)]
    begun = max((index for index, (entry, _) in enumerate(mine) if entry["act"] == MEDIUM), default=0)
    return {hand for entry, hand in mine[begun:] if entry["act"] != WITNESS}


def _field(work: Work, act: str, spot: Spot, what: str) -> forms.Field:
    details, part = work.operation.details, work.words(spot)
    if act == MEDIUM:
        media = [("", "choose"), *((each, each) for each in every_medium(details))]
        return forms.ChoiceField(label=f"What cleans {part}? It is {details['materials'][spot[0]]}", choices=media)
    if act == PLUGS:
        return _each_of(f"{part}: which plugs are out?", plugs(details, spot[0]))
    if act == MASKED:
        return _each_of(f"{part}: what did you mask?", masked_first(details, spot[0]))
    if act == REMOVED:
        return typed(f"{part}: how did you remove the blasting media?")
    if act == WITNESS:
        told = "Answered by another person, from their own account, who has looked into every bore and passage."
        return one_of(f"{part}: blasting media in or on it", NONE_LEFT, SOME_LEFT, help_text=told)
    if act == CLEAN:
        return one_of(f"{part}, after {_medium(work, spot)}", IS_CLEAN, ANOTHER, help_text=work.operation.criterion)
    return one_of(f"{part}, {what}: how was it proved clear?", *details["proofs"], NOT_CLEAR, BLOCKED)


def _each_of(label: str, names: list[str]) -> forms.Field:
    """Each is ticked by whoever looks; none is beforehand."""
    return forms.MultipleChoiceField(label=label, choices=[(each, each) for each in names], widget=forms.CheckboxSelectMultiple)


def _medium(work: Work, spot: Spot) -> str:
    return str(next(entry["found"] for entry, _ in reversed(_entries(work, spot)) if entry["act"] == MEDIUM))


def _checked(work: Work, act: str, spot: Spot, given: Mapping[str, Any], by: Person) -> str:
    """The answer as it is kept. Raises StepRefused where it may not be."""
    details, answer = work.operation.details, given.get("answer", "")
    if act == MEDIUM:
        return _permitted(work, spot, str(answer))
    if act in (PLUGS, MASKED):
        wanted = plugs(details, spot[0]) if act == PLUGS else masked_first(details, spot[0])
        return _all_of(wanted, answer, f"{work.words(spot)}: not {'out' if act == PLUGS else 'masked'}")
    if act == REMOVED:
        if not str(answer).strip():
            raise StepRefused("Say how the media were removed, passage by passage.")
        return str(answer).strip()
    if act == WITNESS and by.pk in _blasters(work, spot):
        raise StepRefused(
            "You blasted it or removed the media yourself: another person looks, and says so from their own account."
        )
    check_answer(given, {WITNESS: (NONE_LEFT, SOME_LEFT), CLEAN: (IS_CLEAN, ANOTHER)}.get(act) or _proofs(details))
    return str(answer)


def _proofs(details: Mapping[str, Any]) -> tuple[str, ...]:
    return (*details["proofs"], NOT_CLEAR, BLOCKED)


def _permitted(work: Work, spot: Spot, medium: str) -> str:
    details = work.operation.details
    if medium not in (able := permitted(details, spot[0])):
        material = details["materials"][spot[0]]
        raise StepRefused(
            f"“{medium[:60]}” is not permitted on {material} ({work.words(spot)}). The data permit: {', '.join(able)}."
        )
    return medium


def _all_of(wanted: list[str], given: Any, what: str) -> str:
    left = [each for each in wanted if each not in (given or ())]
    if left:
        raise StepRefused(f"{what} yet: {', '.join(left)}. Do that first, then tick every one that you see.")
    return ", ".join(wanted)
