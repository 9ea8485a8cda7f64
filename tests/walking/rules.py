"""What may never be so, whoever did what: asked of the bare rows after every act. Each says what it finds broken."""

import hashlib
from collections.abc import Iterator
from uuid import UUID

from tests.walking.clerk import Desk, undone
from tests.walking.gates import must_hold_release
from tests.walking.planned import Planned, operations
from tests.walking.route import AFTER
from tests.walking.watch import rows

WITHOUT_A_NAME = """SELECT o.code, o.round FROM traveler_operation o WHERE (o.signed_at IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM traveler_signature s WHERE s.operation_id = o.id AND s.round = o.round AND s.act = 'done'
    AND s.signed_by_id = o.signed_by_id AND s.signed_at = o.signed_at)) OR (o.accepted_at IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM traveler_signature s WHERE s.operation_id = o.id AND s.round = o.round AND s.act = 'accepted'
    AND s.signed_by_id = o.accepted_by_id AND s.signed_at = o.accepted_at))"""
ANOTHER_ROUND = """SELECT o.code, s.act FROM traveler_signature s JOIN traveler_operation o ON o.id = s.operation_id
    WHERE s.round > o.round OR (s.round = o.round AND ((s.act = 'done' AND o.signed_at IS NULL)
    OR (s.act = 'accepted' AND o.accepted_at IS NULL)))"""
ONE_PERSON = """SELECT code FROM traveler_operation WHERE accepted_by_id IS NOT NULL
    AND (signed_by_id IS NULL OR signed_by_id = accepted_by_id OR NOT hold_point)"""
NOT_ON_THE_ROSTER = """SELECT s.signed_by_id, s.act FROM traveler_signature s JOIN traveler_authorisation a ON a.id = s.under_id
    WHERE a.person_id <> s.signed_by_id"""
TWO_HANDS = "SELECT operation_id, round, act FROM traveler_signature GROUP BY operation_id, round, act HAVING count(*) > 1"
CONCEDED_ALONE = "SELECT id FROM inspection_disposition WHERE second_by_id = made_by_id"
TWO_PLACES = "SELECT item_id FROM parts_fitment WHERE removed_at IS NULL GROUP BY item_id HAVING count(*) > 1"
TWO_PARTS = """SELECT line, place FROM parts_fitment WHERE removed_at IS NULL
    GROUP BY root_id, line, place HAVING count(*) > 1"""
SCRAP_FITTED = """SELECT i.serial FROM parts_fitment f JOIN parts_item i ON i.id = f.item_id
    WHERE f.removed_at IS NULL AND i.scrapped_at IS NOT NULL"""
TWO_RUNS = "SELECT visit_id FROM testbench_run WHERE ended_at IS NULL GROUP BY visit_id HAVING count(*) > 1"
TWO_STEPS = "SELECT run_id FROM testbench_stepspan WHERE ended_at IS NULL GROUP BY run_id HAVING count(*) > 1"
TWO_VISITS = "SELECT engine_id FROM visits_visit WHERE closed_at IS NULL GROUP BY engine_id HAVING count(*) > 1"
SHARED_TRAY = "SELECT tag FROM visits_tray WHERE emptied_at IS NULL GROUP BY tag HAVING count(DISTINCT visit_id) > 1"
NO_BENCH = "SELECT code FROM visits_visitarea WHERE trim(bench) = '' AND code <> 'engine'"
STILL_OPEN = "SELECT r.number FROM release_release r JOIN visits_visit v ON v.id = r.visit_id WHERE v.closed_at IS NULL"
BEGUN = """SELECT DISTINCT e.operation_id FROM traveler_entry e
    JOIN traveler_operation o ON o.id = e.operation_id AND o.round = e.round"""
LAST_SIGNED = "SELECT shown, shown_sha256 FROM traveler_signature ORDER BY signed_at DESC, id DESC LIMIT 1"

Rule = tuple[str, str]
OF_OPERATIONS: tuple[Rule, ...] = (
    (WITHOUT_A_NAME, "complete without a signature"),
    (ANOTHER_ROUND, "a signature of a round that is not signed"),
    (ONE_PERSON, "one person at a hold point"),
    (TWO_HANDS, "one operation held by two"),
    (NOT_ON_THE_ROSTER, "signed under the authorisation of another"),
)
OF_PARTS: tuple[Rule, ...] = (
    (TWO_PLACES, "in two places at once"),
    (TWO_PARTS, "two parts at one place"),
    (SCRAP_FITTED, "scrap is fitted"),
)
RULES: dict[str, tuple[Rule, ...]] = {
    "traveler_operation": OF_OPERATIONS,
    "traveler_signature": OF_OPERATIONS,
    "inspection_disposition": ((CONCEDED_ALONE, "conceded by one person"),),
    "parts_fitment": OF_PARTS,
    "parts_item": OF_PARTS,
    "testbench_run": ((TWO_RUNS, "two runs of one engine"),),
    "testbench_stepspan": ((TWO_STEPS, "two steps of one run"),),
    "visits_visit": ((TWO_VISITS, "one engine on two visits"),),
    "visits_tray": ((SHARED_TRAY, "one tray for two engines"),),
    "visits_visitarea": ((NO_BENCH, "an area on no bench"),),
    "release_release": ((STILL_OPEN, "released and still open"),),
}


def broken(tables: set[str], before: list[Planned], desk: Desk) -> Iterator[str]:
    """After an act that touched rows of these tables; a rule about no row that was touched holds as it did before."""
    for sql, words in dict.fromkeys(rule for table in sorted(tables & RULES.keys()) for rule in RULES[table]):
        yield from (f"{words}: {row}" for row in rows(sql))
    now = operations(desk.visit)
    yield from _order(now)
    yield from _signed_undone(now, before, desk)
    if "traveler_signature" in tables:
        yield from _shown()


def released(desk: Desk) -> Iterator[str]:
    """What stands against the release that was signed a moment ago."""
    return iter(must_hold_release(desk))


def _order(now: list[Planned]) -> Iterator[str]:
    """Whatever is signed, or has entries that count, rests on what is complete."""
    every, begun = {each.code: each for each in now}, {UUID(key) for (key,) in rows(BEGUN)}
    for each in now:
        if each.signed_by or each.id in begun:
            under = [every[code] for code in AFTER[each.code] if code in every]
            yield from (
                f"{each.code} is begun, {below.code} under it is not complete" for below in under if not below.is_complete
            )


def _signed_undone(now: list[Planned], before: list[Planned], desk: Desk) -> Iterator[str]:
    signed = {each.id: each.signed_at for each in before}
    for each in now:
        if each.signed_by and signed.get(each.id) != each.signed_at:
            yield from (f"{each.code} was signed, yet: {why}" for why in undone(each, desk, each.signed_by))


def _shown() -> Iterator[str]:
    shown, kept = rows(LAST_SIGNED)[0]
    if hashlib.sha256(shown.encode()).hexdigest() != kept:
        yield "the hash is not that of what was shown"
