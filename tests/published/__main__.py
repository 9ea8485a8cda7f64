"""The published figures beside what the library computes: source, quantity, expected, computed, agrees.

Run: .venv/bin/python -m tests.published [--csv]     Exits 1 where one does not agree.
"""

import csv
import sys
from collections import Counter
from itertools import groupby

from tests.published.check import Check
from tests.published.discovery import checks

COLUMNS = ("source", "quantity", "expected", "computed", "agrees")
GROUPS = {
    1: "Units and numbers",
    2: "Limits",
    3: "Form",
    4: "Fits",
    5: "Uncertainty and decisions",
    6: "Size classes and regrinds",
    7: "Selective assembly",
    8: "Fasteners",
    9: "Angles",
    10: "Selection by steps",
    11: "Weights and balance",
    12: "Running",
    13: "Wear",
    14: "Gauge studies and control charts",
}
WIDTHS = (46, 58, 34, 34, 6)


def cells(check: Check) -> tuple[str, ...]:
    said = f"{check.source} ({check.note})" if check.note else check.source
    within = "" if check.tolerance == "exact" else f" ± {check.tolerance}"
    return said, check.quantity, check.expected + within, check.shown(), "yes" if check.agrees() else "NO"


def table(found: list[Check]) -> str:
    lines = []
    for group, members in groupby(found, key=lambda check: check.group):
        lines += ["", f"{group}. {GROUPS[group]}", _line(COLUMNS), _line(tuple("-" * width for width in WIDTHS))]
        lines += [_line(cells(check)) for check in members]
    return "\n".join([*lines, "", _count(found)])


def _line(texts: tuple[str, ...]) -> str:
    return "  ".join(text.ljust(width) for text, width in zip(texts, WIDTHS, strict=True)).rstrip()


def _count(found: list[Check]) -> str:
    sources = Counter(check.source for check in found)
    disagreeing = sum(not check.agrees() for check in found)
    return f"{len(found)} checks from {len(sources)} tables; {disagreeing} do not agree."


def main(arguments: list[str]) -> int:
    found = checks()
    if "--csv" in arguments:
        csv.writer(sys.stdout).writerows([COLUMNS, *map(cells, found)])
    else:
        print(table(found))
    return 0 if all(check.agrees() for check in found) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
