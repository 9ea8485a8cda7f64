"""The verdict vectors: rows, readings and what must be said of them, for every implementation of the judge.

    .venv/bin/python -m tests.vectors.making     writes tests/vectors/verdicts.json anew

What is expected comes from the slow oracle (tests/measurements/oracle.py), written from the rules alone, never from the product.
A vector with `refused` holds text that no implementation may judge. Figures: US Army manuals as named, and invented ones.
"""

import json
from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import Any

from tests.measurements import oracle
from tests.measurements.sheets import limit_row

FILE = Path(__file__).with_name("verdicts.json")
SPARE = Fraction(1, 100_000)
TABLES: dict[str, dict[str, str]] = {
    # TM 9-2815-225-34P, appendix F: new least, new greatest, wear limit
    "TM 9-2815-225-34P, cylinder liner inside": {"new_min": "5.4995", "new_max": "5.5010", "service_max": "5.5050"},
    "TM 9-2815-225-34P, rod journal": {"new_min": "3.1235", "new_max": "3.1250", "service_min": "3.1220"},
    "TM 9-2815-225-34P, thrust surface": {"new_min": "3.001", "new_max": "3.003", "service_max": "3.006"},
    # TM 5-4320-300-14, 6-11: both columns of the standard main journal
    "TM 5-4320-300-14, standard main journal": {
        "new_min": "2.999",
        "new_max": "3.000",
        "alt_unit": "mm",
        "alt_new_min": "76.175",
        "alt_new_max": "76.200",
    },
    # TM 5-6115-545-34, Table 1-2: wear is allowed as far as the fit allows it
    "TM 5-6115-545-34, bore for piston pin": {"new_min": "1.5014", "new_max": "1.5016", "worn": "fit"},
    # TM 5-3805-262-34, 4-1: one-sided
    "TM 5-3805-262-34, out-of-round": {"new_max": "0.0005"},
    "TM 5-3805-262-34, thrust washer": {"service_min": "0.147"},
    "invented, from below only": {"new_min": "0.250", "service_min": "0.245"},
    "invented, about zero": {"new_min": "-0.002", "new_max": "0.002", "service_min": "-0.003", "service_max": "0.004"},
    "invented, no band at all": {"new_min": "1.000", "new_max": "1.000"},
    "invented, no limit": {},
}
WAYS: tuple[dict[str, str | int], ...] = (
    {},
    {"rule": "simple"},
    {"rule": "guard"},
    {"rule": "simple", "basis": "rounding", "decimals": 3},
)
US = ("", "0.0002")
UGLY_VALUES = (
    *(
        "",
        " ",
        "1-1/8",
        "1 1/8in",
        "2,1235",
        "1.234.5",
        "--1",
        "+-1",
        "1e3",
        "0x10",
        "NaN",
        "inf",
        "-inf",
        "1_000",
        "\u0663.\u0665",
        "½",
    ),
    *("2.1235 two", "9" * 31, "0." + "0" * 31, "1" * 1000),
)
UGLY_US = ("-0.0001", "small", "1/1000", "NaN", "1e-4")
UGLY_UNITS = ("", "inch", "IN", "kg", "mm2")


def vectors() -> Iterator[dict[str, Any]]:
    for (name, columns), way, u in product(TABLES.items(), WAYS, US):
        row = limit_row("r", **{**columns, **way})
        for value in _near(row):
            yield _vector(f"{name}: {value}", row, value, "in", u)
    yield from _in_millimetres()
    yield from _several_values()
    yield from _misprints()
    yield from _ugly()


def _near(row: dict[str, Any]) -> list[str]:
    """On each limit, one hundred-thousandth to either side of it, and U away from it."""
    limits = sorted({row[name] for name in ("new_min", "new_max", "service_min", "service_max") if row[name]})
    found = {Fraction(limit) + away for limit in limits for away in (-SPARE, 0, SPARE)}
    found |= {Fraction(limit) + side * Fraction("0.0002") for limit in limits[:1] + limits[-1:] for side in (-1, 1)}
    return [_typed(value, 5) for value in sorted(found)] or ["1.00000"]


def _in_millimetres() -> Iterator[dict[str, Any]]:
    """The same length in the other unit: exactly on a limit, and one unit of the sixth decimal beyond it."""
    for name, limit, side in (("new_min", "2.4990", -1), ("new_max", "2.5000", 1), ("service_min", "2.4975", -1)):
        columns = {"new_min": "2.4990", "new_max": "2.5000", "service_min": "2.4975", "rule": "simple"}
        exactly = Fraction(limit) * oracle.INCH
        for value in (exactly, exactly + side * Fraction(1, 1_000_000), exactly - side * Fraction(1, 1_000_000)):
            yield _vector(f"millimetres about {name}", limit_row("r", **columns), _typed(value, 6), "mm", "")
    row = limit_row("r", unit="mm", new_min="53.94", new_max="53.96", service_min="53.90", rule="simple")
    for value in ("2.1236", "2.1237", "2.12362", "2.12205", "2.12204", "2.12598", "2.12600"):
        yield _vector("inches against millimetres", row, value, "in", "")
    for u in ("0.0001", "0.0025", "0.00254"):
        yield _vector("an uncertainty in inches", row, "2.12400", "in", u)


def _several_values() -> Iterator[dict[str, Any]]:
    row = limit_row("r", new_min="2.4990", new_max="2.5000", service_min="2.4975", rule="simple")
    for values in ("2.4995 2.4990", "2.4995 2.4989", "2.5000 2.4976", "2.49749 2.4995 2.4996", "2.4995 2.50001"):
        yield _vector("least and greatest decide", row, values, "in", "")
        yield _vector("least and greatest decide", {**row, "rule": "guard"}, values, "in", "0.0001")


def _misprints() -> Iterator[dict[str, Any]]:
    """TM 5-4320-300-14, 6-11: least main journal for the 0.002 size, 2.996 in beside 76.124 mm; one of the two is a misprint."""
    columns = {"new_min": "2.996", "new_max": "2.998", "alt_unit": "mm", "alt_new_min": "76.124", "alt_new_max": "76.149"}
    for value, u in product(("2.9950", "2.9960", "2.9970", "2.9990"), US):
        expected = {"verdict": "not judged", "reason": "columns disagree"}
        yield _vector("columns disagree", limit_row("r", **columns), value, "in", u) | expected


def _ugly() -> Iterator[dict[str, Any]]:
    row = limit_row("r", new_min="2.4990", new_max="2.5000")
    typed = [(value, "in", "") for value in UGLY_VALUES]
    typed += [("2.4995", "in", u) for u in UGLY_US] + [("2.4995", unit, "") for unit in UGLY_UNITS]
    for value, unit, u in typed:
        yield {"name": "ugly", "row": _filled(row), "values": value, "unit": unit, "expanded_u": u, "refused": True}


def _vector(name: str, row: dict[str, Any], values: str, unit: str, u: str) -> dict[str, Any]:
    read = [oracle.in_unit(value, unit, row["unit"]) for value in values.split()]
    squared = oracle.in_unit(u, unit, row["unit"]) ** 2 if u else None
    verdict, reason = oracle.verdict(row, read, squared, "")
    typed = {"values": values, "unit": unit, "expanded_u": u}
    return {"name": name, "row": _filled(row), **typed, "verdict": verdict, "reason": reason.replace("fit: ", "fit")}


def _typed(value: Fraction, places: int) -> str:
    return f"{Decimal(value.numerator) / value.denominator:.{places}f}"


def _filled(row: dict[str, Any]) -> dict[str, str]:
    return {name: str(value) for name, value in row.items() if value != ""}


def text() -> str:
    """One vector a line, each once."""
    lines = dict.fromkeys(json.dumps(each, ensure_ascii=False) for each in vectors())
    return "[\n" + ",\n".join(lines) + "\n]\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
