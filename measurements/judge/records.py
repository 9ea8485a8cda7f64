"""Lines of a comma-separated file with a header, in a known order of columns, each with its line number."""

import csv
import io
from collections.abc import Iterator, Sequence
from functools import partial
from typing import TextIO

from measurements.judge.bad_input import BadInput

# A longer line is cut here; either piece then has too many fields or a field the csv module refuses.
LONGEST_LINE = 4_000_000


def records(file: TextIO, name: str, required: Sequence[str], optional: Sequence[str] = ()) -> Iterator[tuple[int, list[str]]]:
    """(line, fields) of each record, fields in the order required + optional, an absent optional column blank.

    The header may put its columns in any order. Empty lines are skipped. Raises BadInput for a header that lacks a
    column, repeats one or has one that is not known; for a line with too few or too many fields; for text that is not
    UTF-8 or not comma-separated.
    """
    reader = csv.reader(iter(partial(file.readline, LONGEST_LINE), ""), strict=True)
    line = 0
    try:
        header = [column.strip() for column in next(reader, [])]
        line = reader.line_num
        order = _order(header, name, required, optional)
        width, as_is = len(header), order == list(range(len(header)))
        for fields in reader:
            start, line = line + 1, reader.line_num
            if len(fields) != width:
                if not any(map(str.strip, fields)) and len(fields) < 2:
                    continue
                raise BadInput(name, start, _wrong_width(len(fields), width))
            yield start, fields if as_is else ["" if column is None else fields[column] for column in order]
    except csv.Error as error:
        raise BadInput(
            name, line + 1, f"is not comma-separated text ({error}): look for a quotation mark out of place"
        ) from error
    except UnicodeDecodeError as error:
        raise not_utf8(file, name, line + 1) from error


def _order(header: list[str], name: str, required: Sequence[str], optional: Sequence[str]) -> list[int | None]:
    if header:
        header[0] = header[0].removeprefix("\ufeff")
    wanted = [*required, *optional]
    faults = [f"lacks the column {column}" for column in required if column not in header]
    faults += [f"has a column “{column[:40]}” that is not known" for column in header if column not in wanted]
    faults += [f"has the column {column} twice" for column in wanted if header.count(column) > 1]
    if faults:
        raise BadInput(name, 1, f"the header {faults[0]}; it should be {','.join(required)}")
    return [header.index(column) if column in header else None for column in wanted]


def _wrong_width(found: int, width: int) -> str:
    few_or_many = "too few" if found < width else "too many"
    return f"{few_or_many} fields: {found} where the header names {width}; check the commas"


def not_utf8(file: TextIO, name: str, line: int) -> BadInput:
    """The refusal of bytes that are no text; `line` is told where the exact one cannot be found."""
    return BadInput(name, _undecodable_line(file) or line, "is not UTF-8 text: save the file as UTF-8")


def _undecodable_line(file: TextIO) -> int | None:
    """The line with the offending bytes. The text layer decodes ahead of the line it hands out, so the bytes are read again."""
    raw = getattr(file, "buffer", None)
    if not isinstance(raw, io.BufferedIOBase) or not raw.seekable():
        return None
    raw.seek(0)
    for number, line in enumerate(iter(partial(raw.readline, LONGEST_LINE), b""), start=1):
        try:
            line.decode()
        except UnicodeDecodeError:
            return number
    return None
