"""A limit row in a table of its own, and a reading of it, by way of the services."""

from itertools import count

from measurements.limits.models import LimitRow
from measurements.limits.services import add_table
from measurements.readings.models import Reading
from measurements.readings.services import take_reading
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Person
from tests.making_people import AT
from tests.published.limit_tables import WEAR_LIMITS

# US Army TM 9-2815-225-34P, appendix F (public domain, an industrial engine): camshaft bushing, inside.
NEW_MIN, NEW_MAX, WEAR = WEAR_LIMITS["camshaft bushing inside"]
ROW = {
    "row": "bushing",
    "part": "camshaft bushing",
    "characteristic": "inside diameter",
    "unit": "in",
    "new_min": NEW_MIN,
    "new_max": NEW_MAX,
    "service_max": WEAR,
    "document": "TM 9-2815-225-34P",
    "document_revision": "as published",
    "page": "appendix F",
}
_number = count(1)
_sequence = count(1)


def make_row(by: Person, **fields: object) -> LimitRow:
    return make_rows(by, fields)[0]


def make_rows(by: Person, *fields: dict[str, object]) -> list[LimitRow]:
    """Rows of one table."""
    table = add_table(subject=f"T{next(_number)}", revision="1", rows=[ROW | each for each in fields], by=by, at=AT)
    return list(table.rows.order_by("order"))


def points_of(*values: str, planes: tuple[str, ...] = ("",), directions: tuple[str, ...] = ("",)) -> list[tuple[str, str, str]]:
    """Values plane by plane, as the plan of a row runs."""
    places = [(plane, direction) for plane in planes for direction in directions]
    return [(*place, value) for place, value in zip(places, values, strict=True)]


def draft_fields(row: LimitRow, by: Person, *values: str, **fields: object) -> dict[str, object]:
    planned = {"planes": tuple(row.planes or [""]), "directions": tuple(row.directions or [""])}
    return {
        "row": row,
        "points": points_of(*(values or ["2.4990"]), **planned),
        "unit": row.unit,
        "taken_at": AT,
        "sequence": next(_sequence),
        "by": by,
        "at": AT,
    } | fields


def make_reading(row: LimitRow, by: Person, *values: str, **fields: object) -> Reading:
    return take_reading(**draft_fields(row, by, *values, **fields))


def ledger_faults() -> list[str]:
    """But those of persons, whom tests make directly, without the ledger."""
    return [fault.sentence for fault in verify() if "people." not in fault.sentence]
