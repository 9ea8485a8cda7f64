"""What may never be so, whoever did what: asked of the bare rows after every act. Each rule says what it finds broken."""

import hashlib
from collections.abc import Iterator
from uuid import UUID

from tests.walking.clerk import Desk, undone
from tests.walking.gates import must_hold_release
from tests.walking.planned import Planned, fitted, operations, tagged
from tests.walking.route import AFTER, LINES
from tests.walking.watch import rows

WITHOUT_A_NAME = """SELECT o.code, 'signed' FROM traveler_operation o WHERE o.signed_at IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM traveler_signature s WHERE s.operation_id = o.id AND s.round = o.round AND s.act = 'done'
    AND s.signed_by_id = o.signed_by_id AND s.signed_at = o.signed_at)
    UNION ALL SELECT o.code, 'accepted' FROM traveler_operation o WHERE o.accepted_at IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM traveler_signature s WHERE s.operation_id = o.id AND s.round = o.round AND s.act = 'accepted'
    AND s.signed_by_id = o.accepted_by_id AND s.signed_at = o.accepted_at)"""
NAME_WITHOUT = """SELECT o.code, s.act FROM traveler_signature s JOIN traveler_operation o ON o.id = s.operation_id
    WHERE s.round > o.round OR (s.round = o.round AND ((s.act = 'done' AND o.signed_at IS NULL)
    OR (s.act = 'accepted' AND o.accepted_at IS NULL)))"""
ONE_PERSON = """SELECT code FROM traveler_operation WHERE accepted_by_id IS NOT NULL
    AND (signed_by_id IS NULL OR signed_by_id = accepted_by_id OR NOT hold_point)"""
TWICE_SIGNED = "SELECT operation_id, round, act FROM traveler_signature GROUP BY operation_id, round, act HAVING count(*) > 1"
SAME_HAND = "SELECT id FROM inspection_disposition WHERE second_by_id = made_by_id"
TWO_PLACES = "SELECT item_id FROM parts_fitment WHERE removed_at IS NULL GROUP BY item_id HAVING count(*) > 1"
ONE_PLACE_TWO_PARTS = (
    "SELECT line, place FROM parts_fitment WHERE removed_at IS NULL GROUP BY root_id, line, place HAVING count(*) > 1"
)
SCRAP_FITTED = """SELECT i.serial FROM parts_fitment f JOIN parts_item i ON i.id = f.item_id
    WHERE f.removed_at IS NULL AND i.scrapped_at IS NOT NULL"""
TWO_RUNS = "SELECT visit_id FROM testbench_run WHERE ended_at IS NULL GROUP BY visit_id HAVING count(*) > 1"
TWO_STEPS = "SELECT run_id FROM testbench_stepspan WHERE ended_at IS NULL GROUP BY run_id HAVING count(*) > 1"
OPEN_TWICE = "SELECT engine_id FROM visits_visit WHERE closed_at IS NULL GROUP BY engine_id HAVING count(*) > 1"
SHARED_TRAY = """SELECT tag FROM visits_tray WHERE emptied_at IS NULL GROUP BY tag HAVING count(DISTINCT visit_id) > 1"""
NO_BENCH = "SELECT code FROM visits_visitarea WHERE trim(bench) = ''"
STRAY_RELEASE = """SELECT r.number FROM release_release r JOIN visits_visit v ON v.id = r.visit_id WHERE v.closed_at IS NULL"""
TABLES = {
    "traveler_operation": (
        (WITHOUT_A_NAME, "without a signature"),
        (NAME_WITHOUT, "a signature of a round that is not signed"),
        (ONE_PERSON, "one person at a hold point"),
    ),
    "traveler_signature": ((TWICE_SIGNED, "held by two persons"), (NAME_WITHOUT, "a signature of a round that is not signed")),
    "inspection_disposition": ((SAME_HAND, "conceded by one person"),),
    "parts_fitment": (
        (TWO_PLACES, "in two places"),
        (ONE_PLACE_TWO_PARTS, "two parts at one place"),
        (SCRAP_FITTED, "scrap is fitted"),
    ),
    "parts_item": ((SCRAP_FITTED, "scrap is fitted"),),
    "testbench_run": ((TWO_RUNS, "two runs at once"),),
    "testbench_stepspan": ((TWO_STEPS, "two steps at once"),),
    "visits_visit": ((OPEN_TWICE, "one engine on two visits"), (STRAY_RELEASE, "released and still open")),
    "visits_tray": ((SHARED_TRAY, "one tray with parts of two engines"),),
    "visits_visitarea": ((NO_BENCH, "stands nowhere"),),
    "release_release": ((STRAY_RELEASE, "released and still open"),),
}


def broken(tables: set[str], before: list[Planned], desk: Desk) -> Iterator[str]:
    """After an act that touched rows of these tables."""
    for table in sorted(tables & TABLES.keys()):
        for sql, words in TABLES[table]:
            yield from (f"{words}: {row}" for row in rows(sql))
    now = operations(desk.visit)
    yield from _order(now)
    yield from _half_done(now)
    known = {each.id: each for each in before}
    for each in now:
        was = known.get(each.id)
        if each.signed_by and (was is None or was.signed_at != each.signed_at):
            yield from (f"{each.code} was signed by {each.signed_by}, yet: {why}" for why in undone(each, desk, each.signed_by))
    if "traveler_signature" in tables:
        yield from _shown()


def released(desk: Desk) -> Iterator[str]:
    """What stands against a release that was signed a moment ago."""
    yield from must_hold_release(desk)
    here, now = fitted(desk.root), tagged(desk.visit)
    for code in ("install", "home"):
        line, *places = LINES[code]
        yield from (f"{line} at {place} is not in the engine" for place in places if (line, place) not in here)
        yield from (
            f"{line} at {place}: an undone part was fitted"
            for place in places
            if here.get((line, place)) not in {each.item for each in now.values()}
        )


def _order(now: list[Planned]) -> Iterator[str]:
    """Whatever is signed rests on what is complete."""
    every = {each.code: each for each in now}
    for each in now:
        if each.signed_by:
            rests_on = [every[code] for code in AFTER[each.code] if code in every]
            yield from (
                f"{each.code} is signed, {other.code} under it is not complete" for other in rests_on if not other.is_complete
            )


def _half_done(now: list[Planned]) -> Iterator[str]:
    """Nothing that counts was entered on top of what is not complete."""
    every = {each.code: each for each in now}
    begun = {
        UUID(row[0])
        for row in rows(
            "SELECT DISTINCT e.operation_id FROM traveler_entry e JOIN traveler_operation o ON o.id = e.operation_id AND o.round = e.round"
        )
    }
    for each in now:
        rests_on = [every[code] for code in AFTER[each.code] if code in every]
        if each.id in begun:
            yield from (
                f"{each.code} is begun, {other.code} under it is not complete" for other in rests_on if not other.is_complete
            )


def _shown() -> Iterator[str]:
    shown, kept = rows("SELECT shown, shown_sha256 FROM traveler_signature ORDER BY signed_at DESC, id DESC LIMIT 1")[0]
    if hashlib.sha256(shown.encode()).hexdigest() != kept:
        yield "the hash is not that of what was shown"
