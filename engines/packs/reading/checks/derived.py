"""Rows that are derived from what was read on another one."""

from collections.abc import Iterator
from typing import Any

from engines.packs.reading.draft import Draft, Limit
from engines.packs.reading.figures import unlike
from engines.packs.reading.mistakes import LIMITS, Mistake, quoted

TAPER, OUT_OF_ROUND = "taper", "out-of-round"


def derived_rows_hold(draft: Draft) -> Iterator[Mistake]:
    for line, limit in draft.limits:
        if limit.is_derived:
            for wrong, right in _faults(limit, draft):
                yield Mistake(LIMITS, line, wrong, right)


def _faults(limit: Limit, draft: Draft) -> Iterator[tuple[str, str]]:
    fields = limit.fields
    if not fields["from_row"]:
        yield "there is a quantity, but from_row is blank", "name the row that it is taken from"
    if not fields["quantity"]:
        yield "there is a from_row, but quantity is blank", "say what is taken from it: least, greatest, mean, …"
    if limit.is_fit:
        yield "the row is derived and a fit at once", "fill in from_row and quantity, or outer_row and inner_row"
    if fields["directions"]:
        yield "a derived row is not read, but it has directions", "leave directions blank"
    if fields["quantity"] == TAPER and len(fields["planes"]) != 2:
        yield "a taper runs between two planes", "name two, the one to measure from first"
    for placed in draft.rows.get(fields["from_row"], []):
        if placed.entry.is_read:
            yield from _against(fields, placed.entry.fields)


def _against(fields: dict[str, Any], read: dict[str, Any]) -> Iterator[tuple[str, str]]:
    name = quoted(read["row"])
    for plane in fields["planes"]:
        if plane not in read["planes"]:
            yield f"{name} is not read at the plane {quoted(plane)}", f"its planes are {'; '.join(read['planes']) or 'none'}"
    if set(fields["places"]) != set(read["places"]):
        yield f"the places are not those of {name}", f"write {'; '.join(read['places'])}"
    if fields["quantity"] == OUT_OF_ROUND and len(read["directions"]) < 2:
        yield f"{name} is read in fewer than two directions, which shows no out-of-round", "name two or more there"
    if unlike(fields["unit"], read["unit"]):
        yield f"{quoted(fields['unit'])} and {quoted(read['unit'])} of {name} measure different things", "use one kind of unit"
    if fields["condition"] != read["condition"]:
        yield f"the condition is not that of {name}", f"write {read['condition']}"
