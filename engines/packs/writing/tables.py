"""Tables of a pack: lists have semicolons between their texts, flags are yes or no, a blank is nothing."""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from engines.packs.reading.tables import NO, YES


def table_of(columns: Sequence[str], rows: Iterable[Mapping[str, Any]]) -> str:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows([_cell(row[column]) for column in columns] for row in rows)
    return text.getvalue()


def _cell(value: Any) -> str:
    if isinstance(value, bool):
        return YES if value else NO
    if isinstance(value, list | tuple):
        return ";".join(value)
    return "" if value is None else str(value)
