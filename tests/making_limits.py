"""A small limit table by way of its service. Figures: US Army TM 5-6115-545-34, table 1-2 (piston pin in its bushing)."""

from measurements.limits.models import LimitTable
from measurements.limits.services import add_table
from shopfloor.people.models import Person
from tests.making_people import AT
from tests.published.limit_tables import BUSHING_BORE, PIN

CITED = {"document": "TM 5-6115-545-34", "document_revision": "1979", "page": "table 1-2"}
PIN_ROW = {
    "row": "pin",
    "part": "piston-pin",
    "characteristic": "diameter",
    "places": ["rod 1", "rod 2"],
    "unit": "in",
    "new_min": PIN[0],
    "new_max": PIN[1],
    **CITED,
}
BUSHING_ROW = PIN_ROW | {
    "row": "bushing",
    "part": "rod",
    "characteristic": "bore",
    "new_min": BUSHING_BORE[0],
    "new_max": BUSHING_BORE[1],
}


def make_table(by: Person, *rows: dict[str, object], subject: str = "field-engine", revision: str = "1") -> LimitTable:
    return add_table(subject=subject, revision=revision, rows=rows or (PIN_ROW, BUSHING_ROW), by=by, at=AT)
