"""What holds an area, worked out from the bare rows by a second head: what must hold it, and what may.

Between the two lies only what nobody can tell from the rows alone, such as a reading that a decision lets come again.
"""

from collections.abc import Iterator
from typing import Any, NamedTuple
from uuid import UUID

from engines.catalogue.data import AREA_STAGES, ENGINE_STAGES
from tests.walking.clerk import Desk
from tests.walking.planned import moment, operations, stages, tagged
from tests.walking.route import LINES
from tests.walking.watch import rows

LAST = {"case": "assembly", "cylinders": "assembly", "engine": "release"}
AREA_OF = {"crankshaft": "case", "piston": "cylinders"}
SPOTS = {"case": [("crankshaft", "engine")], "cylinders": [("piston", place) for place in LINES["home"][1:]], "engine": []}
ROW_OF = {"crankshaft": "journal", "piston": "skirt"}
FINDINGS = """SELECT d.id, d.number, d.area, d.line, d.at, d.reading_id, d.row, d.place FROM inspection_discrepancy d
    WHERE d.visit_id = %s ORDER BY d.number"""
DECISIONS = """SELECT p.id, p.discrepancy_id, p.kind, p.line, p.at, p.row, p.place, p.made_at, p.second_at,
    (SELECT count(*) FROM inspection_carriedout c WHERE c.disposition_id = p.id),
    (SELECT count(*) FROM inspection_answer a JOIN inspection_workasked w ON w.id = a.request_id
     WHERE w.discrepancy_id = p.discrepancy_id AND a.said = 'refused' AND a.answered_at >= p.made_at)
    FROM inspection_disposition p JOIN inspection_discrepancy d ON d.id = p.discrepancy_id WHERE d.visit_id = %s ORDER BY p.made_at"""
READINGS = """SELECT r.id, t.row, t.place, t.item_id, r.verdict, r.taken_at,
    (SELECT count(*) FROM readings_reading c WHERE c.corrects_id = r.id)
    FROM inspection_taken t JOIN readings_reading r ON r.id = t.reading_id WHERE t.visit_id = %s ORDER BY r.taken_at, r.sequence"""
WAITING = """SELECT d.area, w.number FROM inspection_workasked w JOIN inspection_discrepancy d ON d.id = w.discrepancy_id
    WHERE w.visit_id = %s AND NOT EXISTS (SELECT 1 FROM inspection_answer a WHERE a.request_id = w.id)
    AND NOT EXISTS (SELECT 1 FROM inspection_withdrawal x WHERE x.request_id = w.id)"""
IMPACT = "SELECT area FROM visits_impactline WHERE visit_id = %s AND settled_at IS NULL"
RUN = "SELECT ended_at, outcome FROM testbench_run WHERE visit_id = %s ORDER BY number DESC"
OPENED = """SELECT count(*) FROM traveler_reopening r JOIN traveler_operation o ON o.id = r.operation_id
    JOIN visits_visitarea a ON a.id = o.area_id WHERE a.visit_id = %s AND r.reopened_at >= %s
    AND o.stage NOT IN ('test', 'final inspection', 'release')"""
GOOD = ("within new limits", "serviceable")


class Finding(NamedTuple):
    id: Any
    number: int
    area: str
    line: str
    at: str
    reading: Any
    row: str
    place: str


class Decision(NamedTuple):
    id: Any
    about: Any
    kind: str
    line: str
    at: str
    row: str
    place: str
    made_at: Any
    second_at: Any
    carried_out: int
    refused: int

    @property
    def counts(self) -> bool:
        return not self.refused and (self.kind != "concession" or self.second_at is not None)


class Read(NamedTuple):
    id: Any
    row: str
    place: str
    item: Any
    verdict: str
    at: Any
    corrected: int


class Found:
    """What was found and decided on a visit, and which reading stands at each place."""

    def __init__(self, visit: Any) -> None:
        self.findings = [Finding(*row) for row in rows(FINDINGS, visit)]
        self.decisions = [Decision(*row) for row in rows(DECISIONS, visit)]
        self.reads, self.tagged = [Read(*row) for row in rows(READINGS, visit)], tagged(visit)

    def last(self, finding: Finding) -> Decision | None:
        """The decision that counts."""
        return ([each for each in self.decisions if each.about == finding.id and each.counts] or [None])[-1]

    def standing(self, spot: tuple[str, str]) -> Read | None:
        """The last reading of the part that is there, none after a rework."""
        row, now = ROW_OF[spot[0]], self.tagged.get(spot)
        since = max(
            (moment(d.made_at) for d in self.decisions if d.counts and d.kind == "rework" and (d.row, d.place) == (row, spot[1])),
            default=None,
        )
        able = [
            read
            for read in self.reads
            if (read.row, read.place) == (row, spot[1])
            and now
            and now.item
            and read.item == now.item
            and not read.corrected
            and (since is None or moment(read.at) > since)
        ]
        return able[-1] if able else None

    def is_decided(self, read: Read) -> bool:
        """Whether it may be used as it is."""
        about = [d for d in self.decisions if d.counts and any(f.id == d.about and f.reading == read.id for f in self.findings)]
        kind = about[-1].kind if about else ""
        return (
            read.verdict in GOOD or kind == "concession" or (kind == "accept within limits" and read.verdict != "outside limits")
        )

    def is_latest(self, finding: Finding) -> bool:
        """Whether its reading is the last one of its part."""
        mine = next(read for read in self.reads if read.id == finding.reading)
        same = [r for r in self.reads if (r.row, r.place, r.item) == (mine.row, mine.place, mine.item) and not r.corrected]
        return bool(same) and same[-1].id == mine.id


def open_ones(visit: Any) -> list[int]:
    """Numbers of the discrepancies about which somebody must still decide."""
    found = Found(visit)
    return [each.number for each in found.findings if _is_open(found, each)]


def undone_decisions(visit: Any) -> list[Any]:
    found = Found(visit)
    return [UUID(made.id) for each in found.findings if (made := found.last(each)) and not _is_done(found, each, made)]


def half_conceded(visit: Any) -> list[Any]:
    return [made.id for made in Found(visit).decisions if made.kind == "concession" and not made.second_at and not made.refused]


def waiting(visit: Any) -> list[int]:
    return [number for _, number in rows(WAITING, visit)]


def ran_well(desk: Desk) -> bool:
    return not _run(desk)


def must_hold(desk: Desk, code: str) -> list[str]:
    """Why the area cannot leave its stage."""
    stage, found = stages(desk.visit)[code], Found(desk.visit)
    order = ENGINE_STAGES if code == "engine" else AREA_STAGES
    reached = order[: order.index(stage) + 1]
    every = [
        f"{each.code} is not complete"
        for each in operations(desk.visit)
        if each.area == code and each.stage in reached and not each.is_complete
    ]
    every += [f"newer data for {area or 'all'}" for (area,) in rows(IMPACT, desk.visit) if area in ("", code)]
    every += list(_held(desk, found, code, stage))
    if code == "engine":
        every += list(_others(desk, code))
        every += _run(desk) if stage != "close-up" else []
    return every


def must_hold_release(desk: Desk) -> list[str]:
    here = stages(desk.visit)["engine"]
    return [*([] if here == "release" else [f"the engine stands in {here}"]), *must_hold(desk, "engine"), *_run(desk)]


def may_hold(desk: Desk, code: str) -> list[str]:
    return [*must_hold(desk, code), *_grey(Found(desk.visit), code)]


def may_hold_release(desk: Desk) -> list[str]:
    return [*must_hold_release(desk), *(why for code in SPOTS for why in _grey(Found(desk.visit), code))]


def _others(desk: Desk, code: str) -> Iterator[str]:
    for other, stage in stages(desk.visit).items():
        if other != code:
            yield from [f"{other} stands in {stage}"] if stage != LAST[other] else must_hold(desk, other)


def _held(desk: Desk, found: Found, code: str, stage: str) -> Iterator[str]:
    late = stage in ("repair", "assembly")
    for spot in SPOTS[code] if stage in ("teardown", "inspection", "repair", "assembly") else []:
        now = found.tagged.get(spot)
        if now is None:
            yield f"{spot} is not tagged"
        elif late and (now.item is None or now.scrapped_at):
            yield f"nothing good is at {spot}"
        if stage == "teardown":
            continue
        read = found.standing(spot)
        if read is None and (
            late or not [d for d in found.decisions if (d.line, d.at) == spot or (d.row, d.place) == (ROW_OF[spot[0]], spot[1])]
        ):
            yield f"{spot} is not read"
        if read and not found.is_decided(read) and (late or not _has_any_decision(found, read)):
            yield f"{spot} is {read.verdict}"
    if stage in ("receiving", "teardown", "cleaning"):
        return
    yield from (f"discrepancy {f.number} is open" for f in found.findings if f.area == code and _is_open(found, f))
    yield from (f"request {number} is not answered" for area, number in rows(WAITING, desk.visit) if area == code)
    if stage != "inspection":
        for each in found.findings:
            made = found.last(each)
            if each.area == code and made and not _is_done(found, each, made):
                yield f"{made.kind} on {each.number} is not done"


def _has_any_decision(found: Found, read: Read) -> bool:
    return any(d.counts and any(f.id == d.about and f.reading == read.id for f in found.findings) for d in found.decisions)


def _grey(found: Found, code: str) -> list[str]:
    """Half decided things, which a gate may hold: a concession with one signature, a part that comes."""
    return [
        f"{made.kind} was once said"
        for made in found.decisions
        if any(f.id == made.about and f.area == code for f in found.findings)
    ]


def _is_open(found: Found, finding: Finding) -> bool:
    if finding.reading is None:
        return found.last(finding) is None
    spot = (finding.line, finding.at)
    read = found.standing(spot)
    return read is not None and read.id == finding.reading and not found.is_decided(read) and not _has_any_decision(found, read)


def _is_done(found: Found, finding: Finding, made: Decision) -> bool:
    if made.kind in ("replace", "scrap", "exchange"):
        stays = made.kind != "scrap" and finding.reading is not None and not found.is_latest(finding)
        return stays or _came(found, made)
    if made.kind != "rework":
        return True
    read = found.standing((made.line, made.at)) if made.row else None
    return (read is not None and found.is_decided(read)) if made.row else bool(made.carried_out)


def _came(found: Found, made: Decision) -> bool:
    now = found.tagged.get((made.line, made.at))
    return now is not None and now.item is not None and now.tagged_at > moment(made.made_at)


def _run(desk: Desk) -> list[str]:
    every = rows(RUN, desk.visit)
    if not every or not every[0][0] or every[0][1] != "passed":
        return ["no run has passed"]
    return ["opened again since the run"] if rows(OPENED, desk.visit, every[0][0])[0][0] else []
