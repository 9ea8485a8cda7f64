"""A clerk with a pencil: from the bare entries of an operation, what is not done yet. Asks none of the steps."""

from collections.abc import Callable
from datetime import datetime, timedelta
from decimal import Decimal
from typing import Any, NamedTuple

from tests.walking.planned import Planned, Told, entries, fitted, tagged
from tests.walking.route import HIGH, LINES, LOCKS, LOW, ORDER
from tests.walking.watch import rows

EXPECTED = {"closures on the tray": "1", "mirror": "1", "rags": "2"}
WITHIN = timedelta(minutes=30)
IN_A_JOINT = len(ORDER)


class Joint(NamedTuple):
    """Whose try it is, its fasteners done, when the last was turned; a dead one is begun again."""

    hand: int = 0
    ready: bool = False
    done: tuple[str, ...] = ()
    turned_at: datetime | None = None
    dead: bool = False

    @property
    def is_complete(self) -> bool:
        return not self.dead and len(self.done) == IN_A_JOINT

    def goes_on(self, hand: int, at: datetime) -> bool:
        late = self.turned_at is not None and at - self.turned_at > WITHIN
        return not self.dead and (self.is_complete or (hand == self.hand and not late))


class Desk(NamedTuple):
    """Whatever a clerk must know of the visit beside the operation."""

    visit: Any
    root: Any
    number: int


def undone(operation: Planned, desk: Desk, hand: int = 0) -> list[str]:
    """In words; with a hand, also that the joint is this person's own."""
    told = entries(operation)
    if operation.kind == "torque-group":
        joint = joint_of(told)
        return [] if joint.is_complete and hand in (0, joint.hand) else [f"joint {joint}"]
    by_kind: dict[str, Callable[[Planned, list[Told], Desk], list[str]]] = {
        "sign-off": _locks,
        "strip-and-tag": _untagged,
        "visual-finding": _unseen,
        "reading": _unread,
        "install-item": _unfitted,
        "keyed-identity": _unfitted,
        "hand-seated-joint": lambda operation, told, desk: (
            [] if told and told[-1].content["seated"] == "dropped home" else ["not home"]
        ),
        "locking": _unlocked,
        "closure-count": lambda operation, told, desk: [asked] if (asked := count_asked(told, operation, desk)) else [],
    }
    return by_kind[operation.kind](operation, told, desk)


def joint_of(told: list[Told]) -> Joint:
    joint = Joint(dead=True)
    for entry in told:
        if not joint.dead and not joint.goes_on(entry.hand, entry.at):
            joint = joint._replace(dead=True)
        if entry.content.get("void") and not entry.content["pass"]:
            joint = joint._replace(dead=True)
        else:
            joint = _turned(Joint(entry.hand) if joint.dead else joint, entry)
    return joint


def _turned(joint: Joint, entry: Told) -> Joint:
    fastener = entry.content["fastener"]
    if not fastener:
        return joint._replace(ready=True, dead=joint.ready)
    joint = joint._replace(turned_at=entry.at)
    if (
        not joint.ready
        or joint.is_complete
        or fastener != ORDER[len(joint.done)]
        or Decimal(entry.content["torque"]) > Decimal(HIGH)
    ):
        return joint._replace(dead=True)
    return joint._replace(done=(*joint.done, fastener)) if Decimal(entry.content["torque"]) >= Decimal(LOW) else joint


def count_asked(told: list[Told], operation: Planned, desk: Desk) -> str:
    """The next thing that the count asks; blank when all is done."""
    acts = [entry.content for entry in told]
    out = [place for place, act in enumerate(acts) if act["act"] == "closure out"]
    if not out:
        return "closure out"
    for what, expected in EXPECTED.items():
        last = [entry for entry in told[out[-1] :] if entry.content.get("what") == what][-1:]
        if not last or (last[0].content["counted"] != expected and not _let_pass(operation, desk, what, last[0].at)):
            return f"count: {what}"
    return "" if any(act["act"] == "closure in again" for act in acts) else "closure in again"


LET_PASS = """SELECT d.raised_at, p.kind, p.second_at, p.made_at, d.id FROM inspection_discrepancy d
    JOIN inspection_disposition p ON p.discrepancy_id = d.id
    WHERE d.visit_id = %s AND d.operation = %s AND d.words LIKE %s ORDER BY d.number, p.made_at"""
UNDONE = """SELECT count(*) FROM inspection_answer a JOIN inspection_workasked w ON w.id = a.request_id
    WHERE w.discrepancy_id = %s AND a.said = 'refused' AND a.answered_at >= %s"""


def _let_pass(operation: Planned, desk: Desk, what: str, at: datetime) -> bool:
    from tests.walking.planned import moment

    kinds = [
        kind
        for raised, kind, second, made, found in rows(LET_PASS, desk.visit, operation.code, f"{what}:%")
        if moment(raised) == at and (kind != "concession" or second) and not rows(UNDONE, found, made)[0][0]
    ]
    return bool(kinds) and kinds[-1] in ("accept within limits", "concession")


def _locks(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    wanted = {lock["joint"] for lock in LOCKS} if operation.code == "close" else set()
    return sorted(wanted - {joint for entry in told for joint in entry.content["joints"]})


def _spots(operation: Planned) -> list[tuple[str, str]]:
    return [(line, place) for line in LINES[operation.code][:1] for place in LINES[operation.code][1:]]


def _untagged(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    return [place for line, place in _spots(operation) if (line, place) not in tagged(desk.visit)]


def _there(operation: Planned, desk: Desk) -> list[tuple[str, str]]:
    now = tagged(desk.visit)
    return [spot for spot in _spots(operation) if spot not in now or now[spot].item]


def _unseen(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    if operation.code not in LINES:
        return [] if told else ["not looked at"]
    seen = {entry.content["spot"] for entry in told}
    return [place for line, place in _there(operation, desk) if f"{line}|{place}" not in seen]


READ = """SELECT count(*) FROM inspection_taken t JOIN readings_reading r ON r.id = t.reading_id
    WHERE t.visit_id = %s AND t.row = %s AND t.place = %s AND t.item_id = %s
    AND NOT EXISTS (SELECT 1 FROM readings_reading c WHERE c.corrects_id = r.id)"""
GIVES_WAY = """SELECT count(*) FROM inspection_disposition p JOIN inspection_discrepancy d ON d.id = p.discrepancy_id
    WHERE d.visit_id = %s AND p.line = %s AND p.at = %s AND p.kind IN ('replace', 'scrap', 'exchange')"""


def _unread(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    row, now = {"journal": "journal", "skirts": "skirt"}[operation.code], tagged(desk.visit)
    return [
        place
        for line, place in _there(operation, desk)
        if (line, place) not in now
        or not (rows(READ, desk.visit, row, place, now[line, place].item)[0][0] or rows(GIVES_WAY, desk.visit, line, place)[0][0])
    ]


def _unfitted(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    here = fitted(desk.root)
    told_of = {entry.content.get("spot", f"{line}|{place}") for entry in told for line, place in _spots(operation)}
    keyed = operation.kind == "keyed-identity"
    return [
        place
        for line, place in _there(operation, desk)
        if (line, place) not in here or (keyed and f"{line}|{place}" not in told_of)
    ]


def _unlocked(operation: Planned, told: list[Told], desk: Desk) -> list[str]:
    last = {entry.content["fastener"]: entry.content["lies"] for entry in told}
    return [each for each in ORDER if not last.get(each, "").startswith("pulls towards tightening")]
