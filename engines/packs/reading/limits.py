"""limits.csv: the limit rows, each with its figures as typed and as exact numbers."""

from typing import Any, cast, get_args

from engines.packs.reading.draft import Draft, Limit, Placed
from engines.packs.reading.figures import decimals_of, exact_row
from engines.packs.reading.mistakes import LIMITS, Notes
from engines.packs.reading.tables import Cells, lines_of
from measurements.metrology.limits import LIMITS as FOUR
from measurements.metrology.limits import Basis, Rule, Worn

FIGURES = (*FOUR, *(f"alt_{name}" for name in FOUR))
REQUIRED = ("row", "part", "characteristic", "unit", *FOUR, "document", "revision", "page")
LISTS = ("places", "outer_planes", "inner_planes", "planes", "directions")
OPTIONAL = (
    *("size_class", "serial_from", "serial_to", "alt_unit", *FIGURES[4:], "worn", "rule", "basis", "decimals"),
    *("outer_row", "inner_row", "from_row", "quantity", "set_up", "condition", "required", *LISTS),
)
QUANTITIES = ("least", "greatest", "mean", "out-of-round", "taper")
AS_RECEIVED, AS_ASSEMBLED = CONDITIONS = ("as received", "as assembled")
FIGURE = 40


def read_limits(text: str, draft: Draft, notes: Notes) -> None:
    before = len(notes)
    for cells in lines_of(text, LIMITS, REQUIRED, OPTIONAL, notes):
        fields = _fields(cells)
        _give_places(fields, draft)
        draft.limits.append(Placed(cells.line, Limit(fields, exact_row(fields, cells))))
    if not draft.limits and len(notes) == before:
        notes.say(LIMITS, 1, "the limit table has no lines", "list at least one below the header")


def _fields(cells: Cells) -> dict[str, Any]:
    source = cells.source()
    return {
        **{name: cells.text(name) for name in ("row", "part")},
        **{name: cells.text(name, needed=False) for name in ("outer_row", "inner_row", "from_row")},
        **{name: cells.text(name, FIGURE, needed=False) for name in ("serial_from", "serial_to", *FIGURES)},
        **{name: list(cells.texts(name)) for name in LISTS},
        "characteristic": cells.text("characteristic", 120),
        "size_class": cells.text("size_class", 20, needed=False),
        "unit": cells.typed("unit"),
        "alt_unit": cells.typed("alt_unit"),
        "worn": cells.word("worn", get_args(Worn), blank="new"),
        "rule": cells.word("rule", cast("tuple[str, ...]", get_args(Rule))[1:], blank=""),
        "basis": cells.word("basis", get_args(Basis), blank="absolute"),
        "decimals": decimals_of(cells),
        "quantity": cells.word("quantity", QUANTITIES, blank=""),
        "set_up": cells.text("set_up", 200, needed=False),
        "condition": cells.word("condition", CONDITIONS, blank=AS_RECEIVED),
        "required": cells.flag("required", blank=True),
        "document": source.document,
        "document_revision": source.revision,
        "page": source.page,
    }


def _give_places(fields: dict[str, Any], draft: Draft) -> None:
    """A row that names no places is at all the places of its part."""
    line = draft.line_by_code.get(fields["part"])
    if not fields["places"] and line:
        fields["places"] = list(line.places)
