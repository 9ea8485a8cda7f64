"""The totals of several runs of pytest, read from what they printed.

Usage: python3 tests/totals.py LOG SECONDS
"""

import re
import sys
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

WORDS = ("failed", "error", "passed", "skipped", "xfailed", "xpassed")
SUMMARY = re.compile(r"^=+ .*\bin [\d.]+s\b.*=+$")
COUNT = re.compile(r"(\d+) (failed|error|passed|skipped|xfailed|xpassed)s?\b")


def counts_of(lines: Iterable[str]) -> Counter[str]:
    """Summed over each run's last line, such as `=== 3 passed, 1 skipped in 0.10s ===`."""
    found: Counter[str] = Counter()
    for line in lines:
        if SUMMARY.match(line):
            found.update({word: int(number) for number, word in COUNT.findall(line)})
    return found


def in_words(counts: Counter[str]) -> str:
    return ", ".join(f"{counts[word]} {word}" for word in WORDS if counts[word])


if __name__ == "__main__":
    totals = counts_of(Path(sys.argv[1]).read_text().splitlines())
    print(f"=== {in_words(totals)} in {sys.argv[2]}s ===")
