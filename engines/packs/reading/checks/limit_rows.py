"""What a limit row names, and that it is of use."""

from collections.abc import Iterator

from engines.packs.reading.checks.names import unknown
from engines.packs.reading.draft import Draft, Limit
from engines.packs.reading.mistakes import LIMITS, Mistake, quoted
from measurements.metrology.limits import LIMITS as FOUR


def rows_name_what_exists(draft: Draft) -> Iterator[Mistake]:
    for line, limit in draft.limits:
        yield from unknown(LIMITS, line, "parts list line", limit.fields["part"], draft.line_by_code)
        part = draft.line_by_code.get(limit.fields["part"])
        if part and len(part.places) > 1:
            for place in limit.fields["places"]:
                if place not in part.places:
                    wrong = f"{quoted(part.line)} has no place {quoted(place)}"
                    yield Mistake(LIMITS, line, wrong, f"its places are {'; '.join(part.places)}")
        for column in ("from_row", "outer_row", "inner_row"):
            yield from _named_row(draft, line, limit, column)


def rows_say_something(draft: Draft) -> Iterator[Mistake]:
    """A row has a limit, or is there for another one; and a limit that is on the fit has a fit."""
    fields = [limit.fields for _, limit in draft.limits]
    mates = {each[column] for each in fields for column in ("outer_row", "inner_row")}
    used = mates | {each["from_row"] for each in fields}
    for line, limit in draft.limits:
        if not any(limit.fields[name] for name in FOUR) and (limit.row not in used or not limit.is_read):
            yield Mistake(LIMITS, line, f"row {quoted(limit.row)} has no limit", "fill in at least one limit")
        if limit.fields["worn"] == "fit" and limit.row not in mates:
            wrong = f"row {quoted(limit.row)} says that its limit is on the fit, and no fit names it"
            yield Mistake(LIMITS, line, wrong, "add the fit, or leave worn blank")


def _named_row(draft: Draft, line: int, limit: Limit, column: str) -> Iterator[Mistake]:
    name = limit.fields[column]
    if name and name not in draft.rows:
        yield Mistake(LIMITS, line, f"{column}: there is no limit row {quoted(name)}", "name a row of this table")
    elif name and not draft.rows[name][0].entry.is_read:
        wrong = f"{column} names {quoted(name)}, which is itself derived or a fit"
        yield Mistake(LIMITS, line, wrong, "name a row that is read")
