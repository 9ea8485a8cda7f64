"""A million verdicts in columns against the bare four comparisons of the same arrays, and one exact verdict.

Run: .venv/bin/python -m tests.benchmarks.verdicts     Exits 1 beyond 4 times the bare comparisons, or 50 µs for one verdict.
"""

import sys
import time
from collections.abc import Callable
from decimal import Decimal
from timeit import repeat

import numpy as np

from measurements.judge.scales import Typed, scale_for
from measurements.metrology.limits import LimitRow
from measurements.metrology.many import judge_many
from measurements.metrology.numbers import mantissa_and_places
from measurements.metrology.verdicts import judge

COUNT, ROUNDS, SINGLE = 1_000_000, 15, 20_000
MOST_TIMES, MOST_MICROSECONDS = 4.0, 50.0
ROW = LimitRow(
    row="journal",
    part="crankshaft",
    characteristic="diameter",
    unit="in",
    new_min=Decimal("2.4990"),
    new_max=Decimal("2.5000"),
    service_min=Decimal("2.4975"),
    service_max=Decimal("2.5005"),
    rule="guard",
)


def quickest(act: Callable[[], object], times: int = 1) -> float:
    """CPU seconds for one act; the least of several rounds is the one that nothing else disturbed."""
    return min(repeat(act, timer=time.process_time, number=times, repeat=ROUNDS)) / times


def one_verdict() -> object:
    """From the text typed in millimetres to the verdict on a row in inches."""
    mantissa, places = mantissa_and_places("63.4754")
    scale = SCALES[places]
    value = mantissa * scale.values[0]
    return judge(value, value, scale.held, (5 * scale.uncertainties[0]) ** 2)


SCALES = {4: scale_for(ROW, [Typed("mm", 4, 4)])}


def main() -> int:
    held = scale_for(ROW, [Typed("in", 5, 5)]).held
    least = np.random.default_rng(5).normal(249_900, 120, COUNT).astype(np.int64)
    greatest = least + np.random.default_rng(6).integers(0, 30, COUNT)

    def bare() -> None:
        for values, limit in ((least, held.low), (least, held.new_min)):
            np.less(values, limit)
        for values, limit in ((greatest, held.high), (greatest, held.new_max)):
            np.greater(values, limit)

    ground = quickest(bare)
    us = np.random.default_rng(7).integers(1, 20, COUNT)
    simple = held._replace(rule="simple")
    ratios = {
        "simple acceptance": quickest(lambda: judge_many(least, greatest, simple)) / ground,
        "guard band, one gauge": quickest(lambda: judge_many(least, greatest, held, 8)) / ground,
    }
    many_gauges = quickest(lambda: judge_many(least, greatest, held, us)) / ground
    single = quickest(one_verdict, SINGLE) * 1e6
    print(f"bare four comparisons of {COUNT:,}: {ground * 1000:.2f} ms")
    for name, ratio in ratios.items():
        print(f"{name}: {ratio:.2f} times (at most {MOST_TIMES:.0f})")
    print(f"guard band, an uncertainty for each: {many_gauges:.2f} times (no limit set)")
    print(f"one exact verdict from its text: {single:.2f} µs (at most {MOST_MICROSECONDS:.0f})")
    return 0 if max(ratios.values()) <= MOST_TIMES and single <= MOST_MICROSECONDS else 1


if __name__ == "__main__":
    sys.exit(main())
