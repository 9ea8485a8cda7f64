"""At the end of inspection nothing is undecided: everything required was read and is good, or somebody decided about it."""

from engines.inspection.ends import is_open
from engines.inspection.standing import DECIDED, Standing, State
from engines.release.blockers import Blocker, Situation


def readings_decided(situation: Situation) -> list[Blocker]:
    standings = situation.now.required(areas=[situation.area.code])
    return [blocker_of(situation, each) for each in standings if each.state not in DECIDED]


def discrepancies_decided(situation: Situation) -> list[Blocker]:
    mine = (each for each in situation.now.discrepancies if each.area == situation.area.code)
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
        return Blocker(f"{what} {why}", "discrepancy" if known else "area", known.pk if known else None)
    why = "is not read yet." if standing.state == State.MISSING else "was decided, but is not carried out and read again."
    return Blocker(f"{what} {why}", "area")
