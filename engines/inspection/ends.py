"""How discrepancies and parts end: whether a decision still waits, is carried out, and what became of every line."""

from dataclasses import dataclass

from engines.catalogue.data import AREA_STAGES, Line
from engines.inspection.answers import refusal_of
from engines.inspection.facts import Inspection
from engines.inspection.models import Discrepancy, Disposition
from engines.inspection.standing import DONE, NEW_PART, Kind, State
from engines.visits.models import Tagged

BEFORE_REPAIR = AREA_STAGES[: AREA_STAGES.index("repair")]
END_OF = {Kind.REPLACE: "replaced", Kind.SCRAP: "replaced", Kind.EXCHANGE: "exchanged"}


@dataclass(frozen=True)
class End:
    """What became of a line at a place: reused, reworked, replaced or exchanged; blank while it is open, with `why`."""

    line: Line
    place: str
    end: str
    why: str

    @property
    def name(self) -> str:
        return self.line.name

    @property
    def area(self) -> str:
        return self.line.area


def last_decision(found: Discrepancy) -> Disposition | None:
    """The decision that counts: the newest that is complete and that no refusal of the customer has undone."""
    complete = [made for made in found.made if made.is_complete and refusal_of(found, made) is None]
    return complete[-1] if complete else None


def still_stands(now: Inspection, found: Discrepancy) -> bool:
    """Whether there is something to decide: no newer reading of the part came, and the part was not replaced."""
    reading = found.reading_id
    return reading is None or (now.standings.is_latest(reading) and now.standings.is_there(reading))


def is_open(now: Inspection, found: Discrepancy) -> bool:
    """Whether somebody must still decide. One about a reading that no longer counts is answered by the newer reading."""
    if found.reading_id is None:
        return last_decision(found) is None
    if not still_stands(now, found):
        return False
    requirement = now.rows.by_key.get((found.row, found.place))
    standing = now.of(requirement) if requirement else None
    if standing is None or standing.read is None:
        return last_decision(found) is None
    return standing.read.id == found.reading_id and standing.state == State.UNDECIDED


def is_carried_out(now: Inspection, found: Discrepancy, made: Disposition) -> bool:
    """Whether a decision asks for nothing more. Only the newest counts; a concession waits for its second signature.

    That a part gives way is asked for no more once it was read again, unless it is scrapped.
    """
    if made != last_decision(found):
        return made.is_complete or is_superseded(found, made) or refusal_of(found, made) is not None
    if is_withdrawn(now, found, made):
        return True
    if made.kind in NEW_PART:
        tagged = now.tagged.get((made.line, made.at))
        return tagged is not None and tagged.item_id is not None and tagged.tagged_at > made.made_at
    if made.kind != Kind.REWORK:
        return True
    if made.row:
        return all(now.of(each).state in DONE for each in now.rows.requirements if each.key == (made.row, made.place))
    return hasattr(made, "carried_out")


def is_withdrawn(now: Inspection, found: Discrepancy, made: Disposition) -> bool:
    """Whether a part stays although it was to give way, because it was read again since."""
    if made.kind not in (Kind.REPLACE, Kind.EXCHANGE) or found.reading_id is None:
        return False
    return not now.standings.is_latest(found.reading_id)


def is_superseded(found: Discrepancy, made: Disposition) -> bool:
    last = last_decision(found)
    return last is not None and last.made_at > made.made_at


def ends_of(now: Inspection) -> list[End]:
    """One for each line and place of the parts list, in its order; open while the area is not inspected."""
    early = {area.code: area.stage for area in now.visit.areas.all() if area.stage in BEFORE_REPAIR}
    return [
        End(line, place, "", f"its area stands in {early[line.area]}.") if line.area in early else _end(now, line, place)
        for line in now.rows.data.lines
        for place in line.places
    ]


def _end(now: Inspection, line: Line, place: str) -> End:
    if line.renew:
        return End(line, place, "replaced", "always renewed")
    if line.tracking == "none":
        return End(line, place, "reused", "not told apart by the data")
    decisions = [
        (found, made)
        for found in now.discrepancies
        if (made := last_decision(found)) and (made.line, made.at) == (line.line, place)
    ]
    tagged = now.tagged.get((line.line, place))
    if order := now.out(line.line, place):
        return End(line, place, "", f"it is out with {order.vendor.name}, order {order.number}.")
    waiting = [made for found, made in decisions if not is_carried_out(now, found, made)]
    if tagged is None or tagged.item_id is None:
        return End(line, place, "", "it was not tagged." if tagged is None else "it was not there, and none has taken its place.")
    if waiting:
        return End(line, place, "", f"“{waiting[0].kind}” is not carried out.")
    kinds = {Kind(made.kind) for found, made in decisions if not is_withdrawn(now, found, made)}
    if tagged.in_place_of_id and not kinds & set(END_OF):
        moved = tagged.item_id in now.taken_off
        return End(line, place, "reused" if moved else "replaced", tagged.as_found if moved else "")
    reworked = Kind.REWORK in kinds or _was_worked_outside(now, tagged)
    ended = next((END_OF[kind] for kind in END_OF if kind in kinds), "reworked" if reworked else "reused")
    return End(line, place, ended, "")


def _was_worked_outside(now: Inspection, tagged: Tagged) -> bool:
    return any(each.is_back for each in now.outside if each.item_id == tagged.item_id)
