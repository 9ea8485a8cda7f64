"""What holds an area, worked out from the bare rows by a second head: what must hold it, and what may.

Between the two lies only what half a decision leaves: a concession with one signature, a part that is to come.
"""

from collections.abc import Iterator
from typing import Any
from uuid import UUID

from engines.catalogue.data import AREA_STAGES, ENGINE_STAGES, STAGES
from tests.walking.clerk import Desk
from tests.walking.found import Found, found_on
from tests.walking.planned import fitted, operations, stages
from tests.walking.route import LINES, ROW_OF, SPOTS
from tests.walking.watch import remembered, rows

LAST = {"case": "assembly", "cylinders": "assembly", "engine": "release"}
BEFORE_RUN = (*AREA_STAGES, "close-up", "test")
WAITING = """SELECT d.area, w.number FROM inspection_workasked w JOIN inspection_discrepancy d ON d.id = w.discrepancy_id
    WHERE w.visit_id = %s AND NOT EXISTS (SELECT 1 FROM inspection_answer a WHERE a.request_id = w.id)
    AND NOT EXISTS (SELECT 1 FROM inspection_withdrawal x WHERE x.request_id = w.id)"""
IMPACT = "SELECT area FROM visits_impactline WHERE visit_id = %s AND settled_at IS NULL"
RUN = "SELECT ended_at, outcome FROM testbench_run WHERE visit_id = %s ORDER BY number DESC"
OPENED = """SELECT o.stage FROM traveler_reopening r JOIN traveler_operation o ON o.id = r.operation_id
    JOIN visits_visitarea a ON a.id = o.area_id WHERE a.visit_id = %s AND r.reopened_at >= %s"""
MOVED = """SELECT m.before, m.after FROM visits_stagemove m JOIN visits_visitarea a ON a.id = m.area_id
    WHERE a.visit_id = %s AND m.moved_at >= %s"""


@remembered
def open_ones(visit: Any) -> list[int]:
    """Numbers of the discrepancies about which somebody must still decide."""
    found = found_on(visit)
    return [each.number for each in found.findings if found.is_open(each)]


@remembered
def undone_decisions(visit: Any) -> list[UUID]:
    found = found_on(visit)
    return [UUID(made.id) for each in found.findings if (made := found.last(each)) and not found.is_done(each, made)]


def half_conceded(visit: Any) -> list[Any]:
    return [
        each.id for each in found_on(visit).decisions if each.kind == "concession" and not each.second_at and not each.refused
    ]


def waiting(visit: Any) -> list[int]:
    """Numbers of the requests that the customer has not answered."""
    return [number for _, number in rows(WAITING, visit)]


@remembered
def must_hold(desk: Desk, code: str) -> list[str]:
    """Why the area cannot leave its stage."""
    stage, found = stages(desk.visit)[code], found_on(desk.visit)
    every = [*_incomplete(desk, code, stage), *_parts(found, code, stage), *_findings(desk, found, code, stage)]
    every += [f"newer data for {area or 'all'}" for (area,) in rows(IMPACT, desk.visit) if area in ("", code)]
    every += _not_in_place(desk, found, code) if stage == LAST[code] else []
    if code == "engine":
        every += [*_others(desk), *([] if stage == "close-up" else _run(desk))]
    return every


def must_hold_release(desk: Desk) -> list[str]:
    here = stages(desk.visit)["engine"]
    return [*([] if here == "release" else [f"the engine stands in {here}"]), *must_hold(desk, "engine"), *_run(desk)]


def may_hold(desk: Desk, code: str) -> list[str]:
    return [*must_hold(desk, code), *_half_decided(desk, (code,) if code != "engine" else tuple(SPOTS))]


def may_hold_release(desk: Desk) -> list[str]:
    return [*must_hold_release(desk), *_half_decided(desk, tuple(SPOTS))]


def ran_well(desk: Desk) -> bool:
    return not _run(desk)


def _incomplete(desk: Desk, code: str, stage: str) -> Iterator[str]:
    order = ENGINE_STAGES if code == "engine" else AREA_STAGES
    reached = order[: order.index(stage) + 1]
    mine = [each for each in operations(desk.visit) if each.area == code and each.stage in reached]
    yield from (f"{each.code} is not complete" for each in mine if not each.is_complete)


def _parts(found: Found, code: str, stage: str) -> Iterator[str]:
    for spot in SPOTS[code] if stage in ("teardown", "inspection", "repair", "assembly") else []:
        now = found.tagged.get(spot)
        if now is None:
            yield f"{spot} is not tagged"
        elif stage in ("repair", "assembly") and (now.item is None or now.scrapped_at):
            yield f"nothing good is at {spot}"
        if stage != "teardown":
            yield from _reading(found, spot, late=stage != "inspection")


def _reading(found: Found, spot: tuple[str, str], late: bool) -> Iterator[str]:
    """At the end of inspection it is enough that somebody decided; later it must be done."""
    read, touched = found.standing(spot), {(each.line, each.at) for each in found.decisions}
    touched |= {(spot[0], each.place) for each in found.decisions if each.row == ROW_OF[spot[0]]}
    if read is None and (late or spot not in touched):
        yield f"{spot} is not read"
    if read and not found.is_usable(read) and (late or not found.about(read)):
        yield f"{spot} is {read.verdict}"


def _findings(desk: Desk, found: Found, code: str, stage: str) -> Iterator[str]:
    if stage in ("receiving", "teardown", "cleaning"):
        return
    yield from (f"discrepancy {each.number} is open" for each in found.findings if each.area == code and found.is_open(each))
    yield from (f"request {number} is not answered" for area, number in rows(WAITING, desk.visit) if area == code)
    for each in found.findings if stage != "inspection" else []:
        made = found.last(each)
        if each.area == code and made and not found.is_done(each, made):
            yield f"{made.kind} on {each.number} is not done"


def _not_in_place(desk: Desk, found: Found, code: str) -> Iterator[str]:
    """What was signed as fitted and is not there, or is another part than any of its line."""
    here = fitted(desk.root)
    for each in operations(desk.visit):
        if each.area == code and each.code in ("install", "home") and each.is_complete:
            line, *places = LINES[each.code]
            known = {now.item for now in found.tagged.values() if now.line == line}
            yield from (f"no {line} is in its place at {place}" for place in places if here.get((line, place)) not in known)


def _others(desk: Desk) -> Iterator[str]:
    for code, stage in stages(desk.visit).items():
        if code != "engine":
            yield from must_hold(desk, code) if stage == LAST[code] else [f"{code} stands in {stage}"]


def _half_decided(desk: Desk, codes: tuple[str, ...]) -> Iterator[str]:
    found = found_on(desk.visit)
    area = {each.id: each.area for each in found.findings}
    yield from (f"{each.kind} was once said" for each in found.decisions if area[each.about] in codes)


def _run(desk: Desk) -> list[str]:
    """The last run passed, and nothing that it rests on was opened or moved back since."""
    every = rows(RUN, desk.visit)
    if not every or not every[0][0] or every[0][1] != "passed":
        return ["no run has passed"]
    since = every[0][0]
    back = [after for before, after in rows(MOVED, desk.visit, since) if STAGES.index(after) < STAGES.index(before)]
    opened = [stage for (stage,) in rows(OPENED, desk.visit, since) if stage in BEFORE_RUN[:-1]]
    return ["opened again since the run"] if opened or set(back) & set(BEFORE_RUN) else []
