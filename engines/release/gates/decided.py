"""At the end of inspection nothing is undecided: everything required was read and is good, or somebody decided about it."""

from engines.inspection.ends import is_open
from engines.inspection.standing import DECIDED, Requirement, Standing, State
from engines.release.blockers import Blocker, Situation


def readings_decided(situation: Situation) -> list[Blocker]:
    standings = situation.now.required(areas=[situation.area.code])
    return [blocker_of(situation, each) for each in standings if each.state not in DECIDED]


def discrepancies_decided(situation: Situation) -> list[Blocker]:
    """Those about a required reading that still counts are told by `readings_decided`."""
    told = {each.read.id for each in situation.now.required(areas=[situation.area.code]) if each.read}
    here = (each for each in situation.now.discrepancies if each.area == situation.area.code)
    mine = (each for each in here if each.reading_id not in told)
    return [
        Blocker(f"Discrepancy {each.number} is not decided: {each.words}", "discrepancy", each.pk)
        for each in mine
        if is_open(situation.now, each)
    ]


def blocker_of(situation: Situation, standing: Standing) -> Blocker:
    now, requirement = situation.now, standing.requirement
    part = now.rows.data.line_by_code[requirement.line].name
    what = f"{part}, {now.rows.any(requirement.row).characteristic} at {requirement.place}"
    if standing.read and standing.state == State.UNDECIDED:
        known = next((each for each in now.discrepancies if each.reading_id == standing.read.id), None)
        why = f"is {standing.read.verdict} and nobody has decided about it."
        return (
            Blocker(f"{what} {why}", "discrepancy", known.pk)
            if known
            else _at_its_operation(situation, f"{what} {why}", requirement)
        )
    why = "is not read yet." if standing.state == State.MISSING else "was decided, but is not carried out and read again."
    return _at_its_operation(situation, f"{what} {why}", requirement)


def _at_its_operation(situation: Situation, sentence: str, requirement: Requirement) -> Blocker:
    """With the operation at which the characteristic is read or checked."""
    row = requirement.base or requirement.row
    codes = {each.code for each in situation.now.rows.data.operations if row in each.names}
    found = next((each for each in situation.operations if each.code in codes), None)
    return Blocker(sentence, "operation", found.pk) if found else Blocker(sentence, "area")
