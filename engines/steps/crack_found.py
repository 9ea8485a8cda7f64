"""What was found at a crack test, checked and judged: exact figures, in the unit of the data. Nothing is kept that may not be."""

from collections.abc import Mapping
from datetime import datetime
from fractions import Fraction
from typing import Any

from engines.steps.asking import check_answer
from engines.steps.crack_data import Details, asked_for, check_named, criterion_of, is_within
from engines.steps.crack_forms import FOUND, IS_CLEANED, NOT_RELEVANT, NOTHING, OTHER, RELEVANT
from engines.steps.examined import BATH, CHECK, DEMAGNETISED, GOOD, INDICATION, LOOK, TECHNIQUE, WRONG
from engines.steps.instruments import in_unit, instrument
from engines.steps.photographs import keep_photo
from engines.steps.second_look import check_second_look
from engines.steps.work import Content, StepRefused
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from measurements.metrology.quantity import split_figure

WITHIN, BEYOND, TO_RECORD = "within the criteria", "beyond the criteria", "to be recorded"


def kept(details: Details, act: str, what: str, given: Mapping[str, Any], before: str, at: datetime) -> Content:
    """What is kept of an answer; `before` is what was read of the same before it. Raises StepRefused."""
    if act == CHECK:
        return _shown(act, check_named(details, what), given, before, at)
    if act == DEMAGNETISED:
        return _shown(act, details["residual"], given, before, at)
    if act == INDICATION:
        return _indication(details, given, at)
    if act == BATH:
        return _bath(details["bath"], given)
    if act == TECHNIQUE:
        return _technique(details["technique"], str(given["answer"]).strip())
    check_answer(given, (FOUND, NOTHING) if act == LOOK else (IS_CLEANED,))
    return {"found": given["answer"], "verdict": TO_RECORD if given["answer"] == FOUND else GOOD}


def _technique(asked: Details, revision: str) -> Content:
    if revision != asked["revision"]:
        wanted = f"{asked['sheet']}, revision {asked['revision']}"
        raise StepRefused(f"The data ask for technique sheet {wanted}. Put revision “{revision[:40]}” away, and get that one.")
    return {"found": f"{asked['sheet']}, revision {revision}", "verdict": GOOD}


def _bath(bath: Details, given: Mapping[str, Any]) -> Content:
    batch = str(given["batch"]).strip()
    if not batch:
        raise StepRefused("Read the batch of the bath: without it nobody finds this engine when the batch is called back.")
    kept = {"found": batch, "verdict": GOOD}
    if "unit" in bath:
        text = str(given["concentration"]).strip()
        is_good = is_within(bath, _figure(text))
        kept |= {"figure": text, "unit": bath["unit"], "asked_for": asked_for(bath), "verdict": GOOD if is_good else WRONG}
    return kept


def _shown(act: str, wanted: Details, given: Mapping[str, Any], before: str, at: datetime) -> Content:
    """What an instrument of the register shows; a field that is left behind counts whichever way it points."""
    taken, text = instrument(given["instrument"], at), str(given["shown"]).strip()
    try:
        typed, unit = split_figure(text, taken.unit)
        there = in_unit(read_number(typed), unit, taken.unit)
        figure = in_unit(read_number(typed), unit, wanted["unit"])
    except MeasureError as error:
        raise _refused(error) from None
    check_second_look(before, text, given)
    taken.check_shown(there)
    is_good = is_within(wanted, abs(figure) if act == DEMAGNETISED else figure)
    rests_on = {"instrument": taken.number, "certificate": taken.certificate}
    return {"found": typed, "unit": unit, "asked_for": asked_for(wanted), "verdict": GOOD if is_good else WRONG, **rests_on}


def _indication(details: Details, given: Mapping[str, Any], at: datetime) -> Content:
    sort, place, reason = (str(given[name]).strip() for name in ("sort", "place", "reason"))
    check_answer({"answer": sort}, [*(each["sort"] for each in details["criteria"]), OTHER])
    check_answer({"answer": given["relevant"]}, (RELEVANT, NOT_RELEVANT))
    if not place or not reason:
        raise StepRefused("Say where it is, and why it is relevant or not, so that another person can judge it.")
    if not given.get("photo"):
        raise StepRefused("Photograph it before it is wiped off: nobody can look at it again.")
    criterion = criterion_of(details, sort)
    length, unit, verdict = _judged(criterion, str(given["length"]), given["relevant"], details)
    asked = f"at most {criterion['greatest']} {criterion['unit']}" if criterion else "the data name no such sort"
    said = {"found": sort, "place": place, "length": length, "unit": unit, "asked_for": asked, "relevant": given["relevant"]}
    return {**said, "reason": reason, "verdict": verdict, "photo": keep_photo(given["photo"], at)}


def _judged(criterion: Details | None, text: str, relevant: str, details: Details) -> tuple[str, str, str]:
    """Length and unit as typed, and the verdict: exact, in the unit of the criterion."""
    wanted = (criterion or details["criteria"][0])["unit"]
    try:
        length, unit = split_figure(text, wanted)
        figure = in_unit(read_number(length), unit, wanted)
    except MeasureError as error:
        raise _refused(error) from None
    if figure <= 0:
        raise StepRefused("An indication has a length: measure it.")
    if relevant == NOT_RELEVANT:
        return length, unit, NOT_RELEVANT
    return length, unit, WITHIN if criterion and is_within({"greatest": criterion["greatest"]}, figure) else BEYOND


def in_words(part: str, found: Content) -> str:
    asked = f"{found['asked_for']} is permitted" if found["found"] != OTHER else found["asked_for"]
    return f"{part}: {found['found']}, {found['length']} {found['unit']}, at {found['place']}; {asked}. {found['reason']}"


def _figure(text: str) -> Fraction:
    try:
        return Fraction(read_number(text))
    except MeasureError as error:
        raise _refused(error) from None


def _refused(error: MeasureError) -> StepRefused:
    return StepRefused(f"{str(error)[0].upper()}{str(error)[1:].rstrip('.')}.")
