"""What is typed at each kind of operation: mostly as the data want it, sometimes not."""

from collections.abc import Callable
from typing import Any

from engines.steps.kinds.locking import BAD, GOOD
from tests.walking.clerk import EXPECTED, Desk, count_asked
from tests.walking.dice import Dice, slip
from tests.walking.joint import Joint, joint_of
from tests.walking.planned import Planned, Told, entries, tagged
from tests.walking.route import LINES, LOCKS, ORDER

Given = dict[str, Any]


def given_at(rng: Dice, operation: Planned, desk: Desk) -> Given:
    return TYPED[operation.kind](rng, operation, entries(operation), desk)


def _spot(rng: Dice, operation: Planned, left: list[str]) -> tuple[str, str]:
    line, *places = LINES[operation.code]
    return line, rng.choice(places if slip(rng) or not left else left)


def _tag(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    now, (line, *places) = tagged(desk.visit), LINES[operation.code]
    spot = _spot(rng, operation, [place for place in places if (line, place) not in now])
    serial = "" if slip(rng, 0.05) else f"{desk.number}-{spot[1] if not slip(rng, 0.05) else 'cylinder 1'}"
    tray = "" if slip(rng, 0.05) else f"tray {desk.number}"
    absent = slip(rng, 0.06)
    return {
        "spot": spot,
        "serial": serial,
        "mark": "",
        "tray": tray,
        "as_found": "" if slip(rng, 0.05) else "worn",
        "absent": absent,
    }


def _look(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    seen = {entry.content["spot"] for entry in told}
    bad = slip(rng)
    given = {"verdict": "not accepted" if bad else "accepted", "words": "a nick" if bad else ""}
    if operation.code in LINES:
        line, *places = LINES[operation.code]
        given["spot"] = _spot(rng, operation, [place for place in places if f"{line}|{place}" not in seen])
    return {**given, "photo": None, "across": None, "down": None}


def _install(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    new = slip(rng)
    evidence = "F-1" if new and slip(rng, 0.5) else ""
    undisturbed = {"undisturbed": slip(rng, 0.3)}
    return {"spot": _spot(rng, operation, []), "new_identity": "N-1" if new else "", "evidence": evidence, **undisturbed}


def _home(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    seen, (line, *places) = {entry.content["spot"] for entry in told}, LINES[operation.code]
    spot, now = _spot(rng, operation, [place for place in places if f"{line}|{place}" not in seen]), tagged(desk.visit)
    other = slip(rng, 0.2)
    read = now.get((line, rng.choice(places)) if other else spot)
    return {
        "spot": spot,
        "identity": (read.serial or "") if read else "X",
        "reason": "worn in there" if other and slip(rng, 0.5) else "",
    }


def _seat(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    home, said = not slip(rng), not slip(rng, 0.9)
    return {"seated": "dropped home" if home else "did not drop home", "why": "a burr" if home == said else ""}


def _tighten(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    joint = joint_of(told)
    if joint.is_complete or slip(rng, 0.04):
        return {"void_reason": "a nut was turned"}
    if joint.dead or not joint.ready or slip(rng, 0.03):
        wrench = rng.choice(["W-2", "W-3", "W-9"]) if slip(rng) else "W-1"
        return {"wrench": wrench, "threads": "wet" if slip(rng, 0.05) else "dry", "slackened": not slip(rng, 0.3)}
    return _turn(rng, joint)


def _turn(rng: Dice, joint: Joint) -> Given:
    fastener = rng.choice(ORDER) if slip(rng, 0.06) else ORDER[len(joint.done)]
    torque = rng.choice(["120", "171", "300", "1-5"]) if slip(rng) else str(rng.randint(140, 160))
    return {"fastener": fastener, "torque": torque, "read_again": slip(rng, 0.6), "out_of_order": slip(rng, 0.5)}


def _lock(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    locked = {entry.content["fastener"] for entry in told if entry.content["lies"] == GOOD["wire"]}
    left = [each for each in ORDER if each not in locked]
    return {
        "fastener": rng.choice(ORDER if slip(rng) or not left else left),
        "lies": rng.choice([GOOD, BAD] if slip(rng, 0.3) else [GOOD])["wire"],
    }


def _count(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    asked = count_asked(told, operation, desk)
    if slip(rng, 0.08) or not asked:
        asked = rng.choice(["closure out", "count: rags", "closure in again"])
    counted = rng.choice(["0", "3", "2.5", "two"]) if slip(rng) else EXPECTED.get(asked.removeprefix("count: "), "")
    return {"asked": asked, "number": "C9" if slip(rng, 0.06) else "C1", "counted": counted}


def _note(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    return {"locked": ["a joint of another engine"] if slip(rng) else [lock["joint"] for lock in LOCKS]}


def _value(rng: Dice, operation: Planned, told: list[Told], desk: Desk) -> Given:
    """At an operation that is read, nothing is entered but readings."""
    return {"value": "2.1245"}


TYPED: dict[str, Callable[[Dice, Planned, list[Told], Desk], Given]] = {
    "strip-and-tag": _tag,
    "visual-finding": _look,
    "install-item": _install,
    "keyed-identity": _home,
    "hand-seated-joint": _seat,
    "torque-group": _tighten,
    "locking": _lock,
    "closure-count": _count,
    "sign-off": _note,
    "reading": _value,
}
