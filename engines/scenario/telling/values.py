"""Invented values that a good part would show, and the gauge that somebody would take for them."""

from collections.abc import Sequence
from decimal import Decimal

from measurements.gauges.models import Gauge
from measurements.limits.models import LimitRow
from measurements.metrology.numbers import places_of
from measurements.readings.points import plan

# Rows whose limits hold for all planes together, while each plane has its own size.
BY_PLANE = {
    ("barrel", "in", "head"): "5.0562",
    ("barrel", "in", "middle"): "5.0590",
    ("barrel", "in", "skirt"): "5.0606",
    ("piston-skirt", "in", "top"): "5.0445",
    ("piston-skirt", "in", "bottom"): "5.0465",
    ("barrel", "mm", "head"): "104.930",
    ("barrel", "mm", "middle"): "104.970",
    ("barrel", "mm", "skirt"): "105.000",
}
INSIDE = ("bore", "bush", "barrel", "guide")
STEPS = (0, 1, -1, 2, -2)


def good_points(row: LimitRow, turn: int) -> list[tuple[str, str, str]]:
    """A value near the middle of the new limits at each point; `turn` varies it a little from place to place."""
    return [(*point, BY_PLANE.get((row.row, row.unit, point[0])) or near_middle(row, turn)) for point in plan(row)]


def near_middle(row: LimitRow, turn: int) -> str:
    if row.new_min and row.new_max:
        low, high = Decimal(row.new_min), Decimal(row.new_max)
    elif row.new_max:
        low, high = Decimal(0), Decimal(row.new_max)
    else:
        low, high = Decimal(row.new_min), Decimal(row.new_min) * Decimal("1.1")
    step = Decimal(1).scaleb(-max(places_of(low), places_of(high)))
    wanted = (low + high) / 2 + STEPS[turn % len(STEPS)] * (high - low) / 16
    return f"{wanted.quantize(step):f}"


def gauge_for(gauges: Sequence[Gauge], row: LimitRow, values: Sequence[str]) -> Gauge:
    """The first whose unit and range suit, an inside gauge for what is inside; the finest where a guard band is kept."""
    inside = any(word in row.characteristic for word in INSIDE)
    able = [gauge for gauge in gauges if gauge.unit == row.unit and _reaches(gauge, values)]
    suited = [gauge for gauge in able if ("bore" in gauge.description) == inside]
    found = suited or able
    return min(found, key=lambda gauge: Decimal(gauge.resolution)) if row.rule == "guard" else found[0]


def _reaches(gauge: Gauge, values: Sequence[str]) -> bool:
    low, high = Decimal(gauge.range_min), Decimal(gauge.range_max)
    return all(low <= Decimal(value) <= high for value in values)
