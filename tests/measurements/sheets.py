"""A table and readings as text, judged; the answer as a list of dictionaries."""

import csv
import io
from typing import NamedTuple

from measurements.judge import Counts, judge_files

LIMITS = "row,part,characteristic,unit,new_min,new_max,service_min,service_max,worn,rule,basis,decimals,outer_row,inner_row"
ALT = "alt_unit,alt_new_min,alt_new_max,alt_service_min,alt_service_max"
READINGS = "row,position,values,unit,expanded_u"
ROW = dict.fromkeys([*LIMITS.split(","), *ALT.split(",")], "")


class Answered(NamedTuple):
    lines: list[dict[str, str]]
    warnings: list[str]
    counts: Counts


def limit_row(row: str, **columns: str | int) -> dict[str, str | int]:
    return {**ROW, "row": row, "part": "part", "characteristic": "size", "unit": "in", **columns}


def table(*rows: dict[str, str | int]) -> str:
    text = io.StringIO()
    writer = csv.DictWriter(text, ROW)
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()


def sheet(*readings: str) -> str:
    return "\n".join((READINGS, *readings, ""))


def answer(limits: str, readings: str) -> Answered:
    out, warnings = io.StringIO(), list[str]()
    counts = judge_files(io.StringIO(limits), io.StringIO(readings), out, "limits.csv", "readings.csv", warnings.append)
    return Answered(list(csv.DictReader(io.StringIO(out.getvalue()))), warnings, counts)


def verdict(row: dict[str, str | int], values: str, u: str = "", unit: str = "in") -> tuple[str, str]:
    """Verdict and reason of one reading on one row."""
    (line,) = answer(table(row), sheet(f"{row['row']},1,{values},{unit},{u}")).lines
    return line["verdict"], line["reason"]
