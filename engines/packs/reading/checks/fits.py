"""Fits and their mates."""

from collections.abc import Iterator
from typing import Any

from engines.packs.reading.draft import Draft, Limit
from engines.packs.reading.figures import unlike
from engines.packs.reading.mistakes import LIMITS, Mistake, quoted

SIDES = (("outer_row", "outer_planes"), ("inner_row", "inner_planes"))


def fits_hold(draft: Draft) -> Iterator[Mistake]:
    for line, limit in draft.limits:
        faults = _faults(limit, draft) if limit.is_fit else _no_fit(limit)
        for wrong, right in faults:
            yield Mistake(LIMITS, line, wrong, right)


def _no_fit(limit: Limit) -> Iterator[tuple[str, str]]:
    for _, planes in SIDES:
        if limit.fields[planes]:
            yield f"{planes} is filled in, but the row is no fit", "leave it blank, or name both mates"


def _faults(limit: Limit, draft: Draft) -> Iterator[tuple[str, str]]:
    fields = limit.fields
    if not fields["outer_row"] or not fields["inner_row"]:
        yield "the fit has only one mate", "fill in outer_row and inner_row"
    if fields["outer_row"] == fields["inner_row"]:
        yield f"outer_row and inner_row are both {quoted(fields['outer_row'])}", "a fit is between two rows"
    if fields["planes"] or fields["directions"]:
        yield "a fit is not read, but it has planes or directions", "use outer_planes and inner_planes"
    for row, planes in SIDES:
        for placed in draft.rows.get(fields[row], []):
            yield from _mate(fields, placed.entry.fields, planes)


def _mate(fields: dict[str, Any], mate: dict[str, Any], planes: str) -> Iterator[tuple[str, str]]:
    name = quoted(mate["row"])
    for place in fields["places"]:
        if place not in mate["places"]:
            yield f"{name} is not read at {quoted(place)}", "a fit and both its mates have the same places"
    for plane in fields[planes]:
        if plane not in mate["planes"]:
            yield f"{name} is not read at the plane {quoted(plane)}", f"its planes are {'; '.join(mate['planes']) or 'none'}"
    if unlike(fields["unit"], mate["unit"]):
        yield f"{quoted(fields['unit'])} and {quoted(mate['unit'])} of {name} measure different things", "use one kind of unit"
