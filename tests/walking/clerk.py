"""A clerk with a pencil: from the bare rows of an operation, what is not done at it yet. Asks none of the steps."""

from collections.abc import Callable
from typing import Any, NamedTuple

from tests.walking.joint import joint_of
from tests.walking.planned import Planned, Told, entries, fitted, moment, tagged
from tests.walking.route import LINES, LOCKS, ORDER, ROW_OF
from tests.walking.watch import remembered, rows

EXPECTED = {"closures on the tray": "1", "mirror": "1", "rags": "2"}
DECIDED = """SELECT d.raised_at, p.kind FROM inspection_discrepancy d JOIN inspection_disposition p ON p.discrepancy_id = d.id
    WHERE d.visit_id = %s AND d.operation = %s AND d.words LIKE %s AND (p.kind <> 'concession' OR p.second_at IS NOT NULL)
    AND NOT EXISTS (SELECT 1 FROM inspection_answer a JOIN inspection_workasked w ON w.id = a.request_id
    WHERE w.discrepancy_id = d.id AND a.said = 'refused' AND a.answered_at >= p.made_at) ORDER BY d.number, p.made_at"""
READ = """SELECT count(*) FROM inspection_taken t JOIN readings_reading r ON r.id = t.reading_id
    WHERE t.visit_id = %s AND t.row = %s AND t.place = %s AND t.item_id = %s
    AND NOT EXISTS (SELECT 1 FROM readings_reading c WHERE c.corrects_id = r.id)"""
GIVES_WAY = """SELECT count(*) FROM inspection_disposition p JOIN inspection_discrepancy d ON d.id = p.discrepancy_id
    WHERE d.visit_id = %s AND p.line = %s AND p.at = %s AND p.kind IN ('replace', 'scrap', 'exchange')"""


class Desk(NamedTuple):
    """Which visit lies before the clerk: its key, its engine's, its number."""

    visit: Any
    root: Any
    number: int


Undone = Callable[[Planned, list[Told], Desk], list[str]]


@remembered
def undone(operation: Planned, desk: Desk, hand: int = 0) -> list[str]:
    """In words; with a hand, also that the joint is this person's own."""
    told = entries(operation)
    if operation.kind == "torque-group":
        joint = joint_of(told)
        return [] if joint.is_complete and hand in (0, joint.hand) else [str(joint)]
    return UNDONE[operation.kind](operation, told, desk)


def count_asked(told: list[Told], operation: Planned, desk: Desk) -> str:
    """The next thing that the count asks; blank when all is done."""
    acts = [entry.content for entry in told]
    out = [place for place, act in enumerate(acts) if act["act"] == "closure out"]
    if not out:
        return "closure out"
    for what, expected in EXPECTED.items():
        last = [entry for entry in told[out[-1] :] if entry.content.get("what") == what][-1:]
        if not last or (last[0].content["counted"] != expected and not _let_pass(operation, desk, what, last[0])):
            return f"count: {what}"
    return "" if any(act["act"] == "closure in again" for act in acts) else "closure in again"


def spots(operation: Planned) -> list[tuple[str, str]]:
    line, *places = LINES[operation.code]
    return [(line, place) for place in places]


def _let_pass(operation: Planned, desk: Desk, what: str, count: Told) -> bool:
    said = [kind for raised, kind in rows(DECIDED, desk.visit, operation.code, f"{what}:%") if moment(raised) == count.at]
    return bool(said) and said[-1] in ("accept within limits", "concession")


def _count(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    asked = count_asked(told, operation, desk)
    return [asked] if asked else []


def _seat(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    return [] if told and told[-1].content["seated"] == "dropped home" else ["not home"]


def _locks(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    wanted = {lock["joint"] for lock in LOCKS} if operation.code == "close" else set()
    return sorted(wanted - {joint for entry in told for joint in entry.content["joints"]})


def _untagged(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    return [spot[1] for spot in spots(operation) if spot not in tagged(desk.visit)]


def _there(operation: Planned, desk: Desk) -> list[tuple[str, str]]:
    now = tagged(desk.visit)
    return [spot for spot in spots(operation) if spot not in now or now[spot].item]


def _unseen(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    if operation.code not in LINES:
        return [] if told else ["not looked at"]
    seen = {entry.content["spot"] for entry in told}
    return [place for line, place in _there(operation, desk) if f"{line}|{place}" not in seen]


def _unread(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    return [spot[1] for spot in _there(operation, desk) if not _is_read(spot, desk)]


def _is_read(spot: tuple[str, str], desk: Desk) -> bool:
    """Once at least, of the part that is there; or it gives way to another."""
    (line, place), now = spot, tagged(desk.visit).get(spot)
    read = rows(READ, desk.visit, ROW_OF[line], place, now.item) if now else [(0,)]
    return bool(read[0][0] or rows(GIVES_WAY, desk.visit, line, place)[0][0])


def _unfitted(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    here, done = fitted(desk.root), {entry.content["spot"] for entry in told}
    return [place for line, place in _there(operation, desk) if (line, place) not in here or f"{line}|{place}" not in done]


def _unlocked(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    last = {entry.content["fastener"]: entry.content["lies"] for entry in told}
    return [each for each in ORDER if not last.get(each, "").startswith("pulls towards tightening")]


UNDONE: dict[str, Undone] = {
    "sign-off": _locks,
    "strip-and-tag": _untagged,
    "visual-finding": _unseen,
    "reading": _unread,
    "install-item": _unfitted,
    "keyed-identity": _unfitted,
    "hand-seated-joint": _seat,
    "locking": _unlocked,
    "closure-count": _count,
}
