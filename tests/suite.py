"""`make test`: the whole suite in three parts, each against its budget, with the totals on the last line.

Usage: python -m tests.suite [further arguments of pytest]
"""

import re
import subprocess
import sys
import time
from dataclasses import dataclass

NO_TESTS = 5
COUNTS = re.compile(r"(\d+) (passed|failed|errors?|skipped|xfailed|xpassed)\b")


@dataclass(frozen=True)
class Part:
    name: str
    markers: str
    budget_s: int


PARTS = (
    Part("core", "not worker and not browser", 90),
    Part("worker and PDF", "worker and not browser", 60),
    Part("browser", "browser", 120),
)


@dataclass
class Outcome:
    status: int
    counts: dict[str, int]
    took_s: float


def run(part: Part, arguments: list[str]) -> Outcome:
    print(f"\n=== {part.name}: {part.budget_s} s are meant to be enough ===", flush=True)
    begun = time.monotonic()
    pytest = subprocess.Popen(
        [sys.executable, "-m", "pytest", "-m", part.markers, *arguments], stdout=subprocess.PIPE, text=True, bufsize=1
    )
    last = ""
    for line in pytest.stdout:
        print(line, end="", flush=True)
        last = line if COUNTS.search(line) else last
    return Outcome(pytest.wait(), counts_of(last), time.monotonic() - begun)


def counts_of(line: str) -> dict[str, int]:
    return {word.removesuffix("s") if word == "errors" else word: int(number) for number, word in COUNTS.findall(line)}


def verdict(part: Part, outcome: Outcome) -> str:
    over = f", OVER its budget of {part.budget_s} s" if outcome.took_s > part.budget_s else f" of {part.budget_s} s"
    return f"{part.name}: {outcome.took_s:.0f} s{over}; " + (totals([outcome]) or "NO TEST RAN")


def totals(outcomes: list[Outcome]) -> str:
    words = ("failed", "error", "passed", "skipped", "xfailed", "xpassed")
    summed = {word: sum(outcome.counts.get(word, 0) for outcome in outcomes) for word in words}
    return ", ".join(f"{number} {word}" for word, number in summed.items() if number)


def main(arguments: list[str]) -> int:
    outcomes = [run(part, arguments) for part in PARTS]
    print()
    for part, outcome in zip(PARTS, outcomes, strict=True):
        print(verdict(part, outcome))
        if outcome.counts.get("skipped"):
            print(f"  {outcome.counts['skipped']} LEFT OUT in this part: see the lines that begin with SKIPPED above.")
    print(f"=== {totals(outcomes)} in {sum(outcome.took_s for outcome in outcomes):.0f}s ===")
    return max((outcome.status for outcome in outcomes if outcome.status != NO_TESTS), default=NO_TESTS)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
