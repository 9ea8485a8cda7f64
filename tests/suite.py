"""`make test`: the whole suite in three parts, each against its budget, with the totals on the last line.

Usage: python -m tests.suite [further arguments of pytest]
"""

import subprocess
import sys
import time
from collections import Counter
from dataclasses import dataclass

from tests.totals import counts_of, in_words

NO_TESTS = 5


@dataclass(frozen=True)
class Part:
    name: str
    markers: str
    budget_s: int
    options: tuple[str, ...] = ()


PARTS = (
    Part("core", "not worker and not browser", 90, ("--numprocesses=2", "--dist=worksteal")),
    Part("worker and PDF", "worker and not browser", 60),
    Part("browser", "browser", 120),
)


@dataclass(frozen=True)
class Outcome:
    status: int
    counts: Counter[str]
    took_s: float


def run(part: Part, arguments: list[str]) -> Outcome:
    print(f"\n##### {part.name} (budget {part.budget_s} s)", flush=True)
    begun, lines = time.monotonic(), []
    command = [sys.executable, "-m", "pytest", "-m", part.markers, *part.options, *arguments]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as pytest:
        for line in pytest.stdout:
            print(line, end="", flush=True)
            lines.append(line.rstrip())
    return Outcome(pytest.returncode, counts_of(lines), time.monotonic() - begun)


def in_a_line(part: Part, outcome: Outcome) -> str:
    over = ", OVER BUDGET" if outcome.took_s > part.budget_s else ""
    left_out = ". SKIPPED TESTS: the lines above that begin with SKIPPED say why" if outcome.counts["skipped"] else ""
    counts = in_words(outcome.counts) or "no test ran"
    return f"{part.name}: {counts}; {outcome.took_s:.0f} s of {part.budget_s} s{over}{left_out}"


def main(arguments: list[str]) -> int:
    outcomes = [run(part, arguments) for part in PARTS]
    print()
    for part, outcome in zip(PARTS, outcomes, strict=True):
        print(in_a_line(part, outcome))
    together = sum((outcome.counts for outcome in outcomes), Counter())
    print(f"All together: {in_words(together)}")
    failures = [outcome.status for outcome in outcomes if outcome.status not in (0, NO_TESTS)]
    return failures[0] if failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
