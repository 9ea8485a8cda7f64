"""Tables for a spreadsheet, in which no cell can act as a formula."""

import csv
import io
from collections.abc import Iterable, Sequence

FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def csv_bytes(header: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """UTF-8 CSV. A text that a spreadsheet might run is led by an apostrophe; a plain number stays a number."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(header)
    writer.writerows([harmless(cell) for cell in row] for row in rows)
    return out.getvalue().encode()


def harmless(cell: object) -> str:
    text = "" if cell is None else str(cell)
    return f"'{text}" if text.startswith(FORMULA_STARTS) and not is_number(text) else text


def is_number(text: str) -> bool:
    digits = text[1:] if text[0] in "+-" else text
    whole, _, part = digits.partition(".")
    return digits.isascii() and (whole + part).isdigit()
