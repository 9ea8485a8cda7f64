"""parts.csv: the parts list."""

from engines.catalogue.data import TRACKING, Line
from engines.packs.reading.draft import Draft, Placed
from engines.packs.reading.mistakes import PARTS, Notes
from engines.packs.reading.tables import Cells, lines_of

COLUMNS = ("line", "part_number", "name", "area", "places", "tracking", "renew", "document", "revision", "page")


def read_parts(text: str, draft: Draft, notes: Notes) -> None:
    before = len(notes)
    for cells in lines_of(text, PARTS, COLUMNS, (), notes):
        draft.lines.append(Placed(cells.line, _line(cells)))
    if not draft.lines and len(notes) == before:
        notes.say(PARTS, 1, "the parts list has no lines", "list at least one below the header")


def _line(cells: Cells) -> Line:
    return Line(
        line=cells.text("line"),
        part_number=cells.text("part_number"),
        name=cells.text("name", 120),
        area=cells.text("area"),
        places=cells.texts("places", needed=True),
        tracking=cells.word("tracking", TRACKING),
        renew=cells.flag("renew"),
        source=cells.source(),
    )
