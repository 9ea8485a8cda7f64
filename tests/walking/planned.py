"""What the rows of the database say of a visit, read by plain SQL: its operations, areas, entries, parts."""

import json
from datetime import UTC, datetime
from typing import Any, NamedTuple
from uuid import UUID

from tests.walking.watch import remembered, rows


class Planned(NamedTuple):
    """An operation of the visit as its row says."""

    id: Any
    code: str
    area: str
    stage: str
    kind: str
    hold_point: bool
    round: int
    signed_by: int | None
    signed_at: Any
    accepted_by: int | None
    accepted_at: Any
    area_stage: str

    @property
    def is_complete(self) -> bool:
        return self.signed_by is not None and (not self.hold_point or self.accepted_by is not None)


class Told(NamedTuple):
    """One entry of the round."""

    content: dict[str, Any]
    hand: int
    at: datetime


class Spot(NamedTuple):
    """The part that is tagged at a place now."""

    line: str
    place: str
    item: Any
    serial: str
    scrapped_at: Any
    tagged_at: datetime


OPERATIONS = """SELECT o.id, o.code, a.code, o.stage, o.kind, o.hold_point, o.round, o.signed_by_id, o.signed_at,
    o.accepted_by_id, o.accepted_at, a.stage FROM traveler_operation o JOIN visits_visitarea a ON a.id = o.area_id
    WHERE a.visit_id = %s ORDER BY o."order" """
ENTRIES = """SELECT text, entered_by_id, entered_at FROM traveler_entry WHERE operation_id = %s AND round = %s
    ORDER BY entered_at, id"""
TAGGED = """SELECT t.line, t.place, t.item_id, i.serial, i.scrapped_at, t.tagged_at FROM visits_tagged t
    LEFT JOIN parts_item i ON i.id = t.item_id WHERE t.visit_id = %s
    AND NOT EXISTS (SELECT 1 FROM visits_tagged l WHERE l.in_place_of_id = t.id)"""
FITTED = "SELECT line, place, item_id FROM parts_fitment WHERE root_id = %s AND removed_at IS NULL"


@remembered
def operations(visit: Any) -> list[Planned]:
    return [Planned(UUID(row[0]), *row[1:]) for row in rows(OPERATIONS, visit)]


@remembered
def entries(operation: Planned) -> list[Told]:
    return [Told(json.loads(text), hand, moment(at)) for text, hand, at in rows(ENTRIES, operation.id, operation.round)]


@remembered
def tagged(visit: Any) -> dict[tuple[str, str], Spot]:
    return {(row[0], row[1]): Spot(*row[:5], moment(row[5])) for row in rows(TAGGED, visit)}


@remembered
def fitted(root: Any) -> dict[tuple[str, str], Any]:
    return {(line, place): item for line, place, item in rows(FITTED, root)}


@remembered
def stages(visit: Any) -> dict[str, str]:
    return dict(rows('SELECT code, stage FROM visits_visitarea WHERE visit_id = %s ORDER BY "order"', visit))


def moment(given: Any) -> datetime:
    """SQLite hands out texts."""
    found = datetime.fromisoformat(given) if isinstance(given, str) else given
    return found if found.tzinfo else found.replace(tzinfo=UTC)
