"""A million readings through `manage.py judge`: seconds, peak memory, and how many times a bare copy of the file by csv.

Run: .venv/bin/python -m tests.benchmarks.judge     Exits 1 beyond 12 s or 150 MB.
The readings are of two mates and a third row, in two units, half of them with an uncertainty, few repeated.
"""

import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

LINES = 1_000_000
MOST_SECONDS = 12.0
MOST_MEGABYTES = 150.0
MANAGE = Path(__file__).parents[2] / "manage.py"
LIMITS = """row,part,characteristic,unit,new_min,new_max,service_min,service_max,worn,rule,basis,decimals,outer_row,inner_row
bore,piston,bore for pin,in,1.5014,1.5016,,,fit,,,,,
pin,pin,diameter,in,1.5011,1.5013,,,fit,,,,,
journal,shaft,journal,mm,63.475,63.500,63.460,,,simple,rounding,2,,
fit,piston,pin in piston,in,0.0001,0.0005,,0.0009,,,,,bore,pin
"""
COPY = """import csv, sys
with open(sys.argv[1], newline="") as source, open(sys.argv[2], "w", newline="") as target:
    csv.writer(target, lineterminator="\\n").writerows(csv.reader(source))
"""


class Run(NamedTuple):
    code: int
    seconds: float
    megabytes: float


def run(*command: str) -> Run:
    began = time.perf_counter()
    process = subprocess.Popen(command)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    return Run(process.returncode, time.perf_counter() - began, usage.ru_maxrss / 1024)


def write_readings(path: Path) -> None:
    chance = random.Random(6)
    with path.open("w") as file:
        file.write("row,position,values,unit,expanded_u\n")
        for line in range(LINES):
            row, centre, unit = (("bore", 1.5015, "in"), ("pin", 1.5012, "in"), ("journal", 63.48, "mm"))[line % 3]
            values = " ".join(f"{chance.gauss(centre, 0.002):.5f}" for _ in range(1 + line % 2))
            file.write(f"{row},{line // 3 % 20_000},{values},{unit},{'0.00005' if line % 4 < 2 else ''}\n")


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        limits, readings, out = (str(Path(folder, name)) for name in ("L.csv", "R.csv", "O.csv"))
        Path(limits).write_text(LIMITS)
        write_readings(Path(readings))
        bare = run(sys.executable, "-c", COPY, readings, out)
        judged = run(sys.executable, str(MANAGE), "judge", "--limits", limits, "--readings", readings, "--out", out)
        with open(out) as answer:
            answered = sum(1 for _ in answer)
    within = judged.code == 1 and answered > LINES and judged.seconds <= MOST_SECONDS and judged.megabytes <= MOST_MEGABYTES
    print(f"judge, {LINES:,} readings: {judged.seconds:.1f} s (at most {MOST_SECONDS:.0f}),", end=" ")
    print(f"{judged.megabytes:.0f} MB (at most {MOST_MEGABYTES:.0f}), {judged.seconds / bare.seconds:.1f} times a bare copy")
    return 0 if within else 1


if __name__ == "__main__":
    sys.exit(main())
