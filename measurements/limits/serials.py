"""Serial numbers in order: a prefix, a number, a suffix. A range lives within one prefix and suffix."""

import re
from typing import NamedTuple

SERIAL = re.compile(r"(.*?)([0-9]+)([^0-9]*)")


class Serial(NamedTuple):
    prefix: str
    number: int
    suffix: str


def parse(text: str) -> Serial | None:
    """`L-1204-A` is prefix `L-`, number 1204, suffix `-A`; None for a text without a digit. The last number counts."""
    found = SERIAL.fullmatch(text.strip().upper())
    return Serial(found[1], int(found[2]), found[3]) if found else None


def in_range(serial: str, first: str, last: str) -> bool:
    """Whether a serial lies from `first` to `last`, either blank for no end; another prefix or suffix never does."""
    if not first and not last:
        return True
    here = parse(serial)
    ends = [parse(first) if first else None, parse(last) if last else None]
    if here is None or any((end.prefix, end.suffix) != (here.prefix, here.suffix) for end in ends if end):
        return False
    low, high = ends
    return (low is None or low.number <= here.number) and (high is None or here.number <= high.number)


def overlap(first: tuple[str, str], second: tuple[str, str]) -> bool:
    """Whether two ranges share a serial; a range without ends holds every serial."""
    if first == ("", "") or second == ("", ""):
        return True
    (a, b), (c, d) = [tuple(parse(end) if end else None for end in ends) for ends in (first, second)]
    families = {(end.prefix, end.suffix) for end in (a, b, c, d) if end}
    if len(families) > 1:
        return False
    return not ((b and c and b.number < c.number) or (d and a and d.number < a.number))
