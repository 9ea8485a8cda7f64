"""Which gauge on the shelf could decide a reading, without asking for a better one than needed."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.figures import Exact, exact, exact_not_negative, ordered


@dataclass(frozen=True)
class Gauge(Checked, not_negative=("expanded",), in_order=(("range_from", "range_to"),)):
    """A gauge: name, expanded uncertainty (k = 2), and its range, all in one unit; range ends may be missing."""

    name: str
    expanded: Exact
    range_from: Exact | None = None
    range_to: Exact | None = None


def can_decide(gauge: Gauge, reading: Exact, low: Exact | None, high: Exact | None) -> bool:
    """Whether a gauge could give a decided verdict on a value such as this: outside by more than U, or inside by U.

    Units: one unit throughout. Raises: BadLimits, BadFigure. Source: ISO 14253-1 (from memory).
    """
    least, greatest = ordered(low, high)
    bottom, top = ordered(gauge.range_from, gauge.range_to, f"the range of {gauge.name}")
    value, width = exact(reading, "the reading"), exact_not_negative(gauge.expanded, f"U of {gauge.name}")
    if (bottom is not None and value < bottom) or (top is not None and value > top):
        return False
    if _outside(value, least, greatest, width):
        return True
    if least is not None and greatest is not None and 2 * width > greatest - least:
        return False
    return (least is None or value - least >= width) and (greatest is None or greatest - value >= width)


def deciding_gauges(gauges: Iterable[Gauge], reading: Exact, low: Exact | None, high: Exact | None) -> tuple[Gauge, ...]:
    """The gauges that could decide, the least demanding first; empty when none on the shelf can.

    Units: one unit throughout. Shape: any number of gauges. Raises: as `can_decide`. Source: ISO 14253-1 (from memory).
    """
    able = [gauge for gauge in gauges if can_decide(gauge, reading, low, high)]
    return tuple(sorted(able, key=lambda gauge: -Fraction(gauge.expanded)))


def _outside(value: Fraction, least: Fraction | None, greatest: Fraction | None, width: Fraction) -> bool:
    below = least is not None and least - value > width
    return below or (greatest is not None and value - greatest > width)
