"""At most one line of a row is in force for a serial and a size class."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations

from engines.packs.reading.draft import Draft, Limit, Placed
from engines.packs.reading.mistakes import LIMITS, Mistake, quoted
from measurements.limits.serials import overlap, parse


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
        for first, second in combinations(group, 2):
            yield from _both_in_force(first, second)


def _both_in_force(first: Placed[Limit], second: Placed[Limit]) -> Iterator[Mistake]:
    limit = second.entry
    what = f"row {quoted(limit.row)}, size class {quoted(limit.size_class or 'standard')}"
    if overlap(first.entry.serials, limit.serials):
        wrong = f"{what} is in force for the same serials on line {first.line}"
        yield Mistake(LIMITS, second.line, wrong, "keep one, or give each its own range of serials")
    elif first.entry.serials[0] == limit.serials[0]:
        wrong = f"{what} begins at the same serial as on line {first.line}"
        yield Mistake(LIMITS, second.line, wrong, "fill in serial_from of both")


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
