"""Lines of a comma-separated file, read as strictly as the judge reads its own, but to the end whatever is wrong."""

import csv
import io
from collections.abc import Iterator, Sequence

from engines.packs.reading.fields import Fields
from engines.packs.reading.mistakes import Notes, quoted

YES, NO = "yes", "no"
MOST_LINES = 3000


class Cells(Fields):
    """One line of a table; lists have semicolons between their texts."""

    def __init__(self, file: str, line: int, notes: Notes, cells: dict[str, str]) -> None:
        super().__init__(file, line, notes)
        self._cells = cells

    def typed(self, name: str) -> str:
        return self._cells.get(name, "").strip()

    def listed(self, name: str) -> list[str]:
        return self.typed(name).split(";") if self.typed(name) else []

    def flag(self, name: str, *, blank: bool = False) -> bool:
        return self.word(name, (YES, NO), blank=YES if blank else NO) == YES


def lines_of(text: str, file: str, required: Sequence[str], optional: Sequence[str], notes: Notes) -> Iterator[Cells]:
    """Each line under its header, empty ones skipped. A faulty header ends the reading, a faulty line only itself."""
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    line = 0
    try:
        header = [column.strip() for column in next(reader, [])]
        if not _sound(header, file, required, optional, notes):
            return
        line = reader.line_num
        for fields in reader:
            start, line = line + 1, reader.line_num
            if line > MOST_LINES:
                notes.say(file, start, f"the table goes on beyond line {MOST_LINES}", "a pack tells of one engine model only")
                notes.cut = True
                return
            if len(fields) == len(header):
                yield Cells(file, start, notes, dict(zip(header, fields, strict=True)))
            elif any(map(str.strip, fields)) or len(fields) > 1:
                wrong = f"there are {len(fields)} fields where the header names {len(header)}"
                notes.unread.add(fields[0].strip())
                notes.say(file, start, wrong, "check the commas, and put text that holds one into quotation marks")
    except csv.Error as error:
        notes.say(file, line + 1, f"not comma-separated text ({error})", "look for a quotation mark out of place")
        notes.cut = True


def _sound(header: list[str], file: str, required: Sequence[str], optional: Sequence[str], notes: Notes) -> bool:
    known = [*required, *optional]
    before = len(notes)
    for column in required:
        if column not in header:
            notes.say(file, 1, f"the column {column} is missing", f"the header should be {','.join(required)}")
    for column in dict.fromkeys(header):
        if column not in known:
            notes.say(file, 1, f"the column {quoted(column)} is not known", f"the columns are {','.join(known)}")
        elif header.count(column) > 1:
            notes.say(file, 1, f"the column {column} stands there twice", "keep one of them")
    return len(notes) == before
