"""At most one line of a row is in force for a serial and a size class."""

from collections import defaultdict
from collections.abc import Iterator

from engines.packs.reading.draft import Draft, Limit, Placed
from engines.packs.reading.mistakes import LIMITS, Mistake, quoted
from measurements.limits.serials import overlap, parse

Place = tuple[tuple[str, str], float]  # kind of serial, then number
ENDLESS = float("inf")
EVERY: Place = (("\U0010ffff", ""), ENDLESS)  # beyond every kind of serial


def one_row_in_force(draft: Draft) -> Iterator[Mistake]:
    groups: dict[tuple[str, str], list[Placed[Limit]]] = defaultdict(list)
    for placed in draft.limits:
        wrong = _wrong_range(placed.entry.serials)
        if wrong:
            right = "a range runs up within one prefix and suffix, such as L-100-A to L-199-A"
            yield Mistake(LIMITS, placed.line, wrong, right)
        else:
            groups[placed.entry.row, placed.entry.size_class].append(placed)
    for group in groups.values():
        yield from _both_in_force(group)
        yield from _beginning_alike(group)


def _both_in_force(group: list[Placed[Limit]]) -> Iterator[Mistake]:
    """Each line is held against the one that reaches furthest of those that begin before it."""
    furthest: Placed[Limit] | None = None
    for each in sorted(group, key=_begin):
        if furthest and overlap(furthest.entry.serials, each.entry.serials):
            wrong = f"{_named(each)} is in force for the same serials on line {furthest.line}"
            yield Mistake(LIMITS, each.line, wrong, "keep one, or give each its own range of serials")
        if furthest is None or _end(each) > _end(furthest):
            furthest = each


def _beginning_alike(group: list[Placed[Limit]]) -> Iterator[Mistake]:
    """Two open ranges of two kinds of serial both begin blank; a table holds one of them only."""
    begun: dict[str, Placed[Limit]] = {}
    for each in group:
        first = begun.setdefault(each.entry.serials[0], each)
        if first is not each and not overlap(first.entry.serials, each.entry.serials):
            wrong = f"{_named(each)} begins at the same serial as on line {first.line}"
            yield Mistake(LIMITS, each.line, wrong, "fill in serial_from of both")


def _named(placed: Placed[Limit]) -> str:
    limit = placed.entry
    return f"row {quoted(limit.row)}, size class {quoted(limit.size_class or 'standard')}"


def _begin(placed: Placed[Limit]) -> Place:
    first, last = placed.entry.serials
    return _kind(first or last), parse(first).number if first else -1  # type: ignore[union-attr]


def _end(placed: Placed[Limit]) -> Place:
    first, last = placed.entry.serials
    if not first and not last:
        return EVERY
    return _kind(first or last), parse(last).number if last else ENDLESS  # type: ignore[union-attr]


def _kind(serial: str) -> tuple[str, str]:
    found = parse(serial)
    return (found.prefix, found.suffix) if found else ("", "")


def _wrong_range(ends: tuple[str, str]) -> str:
    """What is wrong with the ends of a range of serials; blank where nothing is."""
    for end in filter(None, ends):
        if parse(end) is None:
            return f"the serial {quoted(end)} has no number"
    first, last = (parse(end) if end else None for end in ends)
    if first is None or last is None:
        return ""
    if (first.prefix, first.suffix) != (last.prefix, last.suffix):
        return f"the serials {ends[0]} and {ends[1]} are of two kinds"
    return f"the serials {ends[0]} to {ends[1]} run down" if first.number > last.number else ""
