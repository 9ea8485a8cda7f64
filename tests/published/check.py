"""One published figure and what the library makes of it: the shape that every table of checks shares."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import isfinite

from measurements.metrology.numbers import plain_float, plain_ratio

NUMBER = re.compile(r"(?<![\w.])[-+\u2212]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")
Number = int | float | Decimal | Fraction


@dataclass(frozen=True)
class Check:
    """A figure of an outside source beside the same figure computed here.

    `group` is 1 to 14 of the questions an overhaul asks. `expected` is written as the source prints it: one number, several
    (`0.0014 to 0.0021`, as many as `computed` gives), or words (`yes` and `no` for a truth). `computed` takes nothing and gives a
    number, a sequence of numbers, or words. `tolerance` is "exact" or decimal text, allowed on each number.
    `note` says how sure the figure is: "read", "computed with …", "from memory", "common practice, no source".
    """

    group: int
    source: str
    quantity: str
    expected: str
    computed: Callable[[], object]
    tolerance: str = "exact"
    note: str = ""

    @property
    def name(self) -> str:
        """The same from run to run: group, source, quantity."""
        return f"{self.group:02d} {self.source}: {self.quantity}"

    def shown(self) -> str:
        """What was computed, in words for a table."""
        return _words(self.computed())

    def agrees(self) -> bool:
        """Whether what is computed is what the source prints."""
        value = self.computed()
        found = _numbers(value)
        if found is None:
            return _words(value) == self.expected
        printed = [Fraction(text.replace("\u2212", "-")) for text in NUMBER.findall(self.expected)]
        if len(printed) != len(found) or not all(isfinite(number) for number in found):
            return False
        allowed = Fraction(0) if self.tolerance == "exact" else Fraction(self.tolerance)
        return all(abs(want - Fraction(number)) <= allowed for want, number in zip(printed, found, strict=True))


def _numbers(value: object) -> list[Number] | None:
    members = list(value) if isinstance(value, tuple | list) else [value]
    numbers = [float(m) if hasattr(m, "dtype") else m for m in members]
    if any(isinstance(m, bool) or not isinstance(m, int | float | Decimal | Fraction) for m in numbers):
        return None
    return numbers


def _words(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple | list):
        return ", ".join(_words(member) for member in value)
    if isinstance(value, float):
        return plain_float(float(value))
    if isinstance(value, Fraction):
        return plain_ratio(value.numerator, value.denominator)
    return f"{value:f}" if isinstance(value, Decimal) else str(value)
