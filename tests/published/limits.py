"""Group 2, limits: printed tables, their wear limits on either side, their size classes."""

from decimal import Decimal
from functools import partial

from measurements.metrology.limits import LimitRow, criterion, disagreements
from measurements.metrology.margin import margin
from measurements.metrology.size_class import in_size_class
from measurements.metrology.verdicts import judge
from tests.published.check import Check
from tests.published.limit_tables import BUSHING_CLEARANCE_MAXIMUM, PRINTED_PIN_IN_BUSHING, REGRIND_JOURNALS, WEAR_LIMITS

WEAR = "TM 9-2815-225-34P, appendix F"
JOURNALS = "TM 5-4320-300-14, 6-11"
RODS = "TM 5-3805-262-34, 4-1"
ASTERISKS = "TM 9-2520-234-35, paragraph 235"
CLEARANCE = "TM 5-6115-545-34, table 1-2"
# Connecting rod journals to be ground, inches.
GROUND_RODS = {"0.010": ("2.738", "2.739"), "0.020": ("2.728", "2.729"), "0.030": ("2.718", "2.719")}
SCALE = 10**6


def row(low: str, high: str, **more) -> LimitRow:
    return LimitRow(
        row="r", part="p", characteristic="c", unit="in", new_min=Decimal(low), new_max=Decimal(high), rule="simple", **more
    )


def worn_row(name: str) -> tuple[LimitRow, Decimal, int]:
    """The row, its wear limit, and which way wear goes."""
    low, high, wear = WEAR_LIMITS[name]
    way = 1 if Decimal(wear) > Decimal(high) else -1
    return row(low, high, **{"service_max" if way > 0 else "service_min": Decimal(wear)}), Decimal(wear), way


def verdict(held: LimitRow, value: Decimal) -> str:
    judged = judge(int(value * SCALE), int(value * SCALE), criterion(held, SCALE), 0)
    return ": ".join([str(judged.verdict), *map(str, judged.reasons)])


def at_wear_limit_and_beyond(name: str) -> str:
    held, wear, way = worn_row(name)
    return f"{verdict(held, wear)}, {verdict(held, wear + way * Decimal('0.0001'))}"


def left(name: str, value: str) -> list:
    """What is left, absolute and as a share of the allowance, on the side that wears."""
    held, _, way = worn_row(name)
    found = margin(held, [Decimal(value)])
    side = found.above if way > 0 else found.below
    return [side.left, side.share]


def ground(name: str, offset: str) -> list[Decimal]:
    low, high, *_ = REGRIND_JOURNALS[name]
    moved = in_size_class(row(low, high), Decimal(offset))
    return [moved.new_min, moved.new_max]


def disagreeing() -> str:
    rows = {
        name: row(low, high, alt_unit="mm", alt_new_min=Decimal(mm_low), alt_new_max=Decimal(mm_high))
        for name, (low, high, mm_low, mm_high) in REGRIND_JOURNALS.items()
    }
    return ", ".join(f"{name}: {fault}" for name, held in rows.items() for fault in disagreements(held))


def next_rod(size: str) -> list[Decimal]:
    moved = in_size_class(row(*GROUND_RODS[size]), Decimal("-0.010"))
    return [moved.new_min, moved.new_max]


def clearance_left(clearance: str) -> list:
    held = row(*PRINTED_PIN_IN_BUSHING, service_max=Decimal(BUSHING_CLEARANCE_MAXIMUM))
    found = margin(held, [Decimal(clearance)]).above
    return [found.left, found.share]


CHECKS = [
    *(
        Check(2, WEAR, f"{name} at {WEAR_LIMITS[name][2]}, and 0.0001 beyond", "serviceable, outside limits",
              partial(at_wear_limit_and_beyond, name), note="read")
        for name in list(WEAR_LIMITS)[:5]
    ),
    Check(2, WEAR, "cylinder liner at 5.5030: left, and of the allowance 5.5010 to 5.5050", "0.0020 0.5",
          partial(left, "cylinder liner inside", "5.5030"), note="limits read, reading invented"),
    Check(2, WEAR, "rod journal at 3.1235: left, and of the allowance 3.1235 to 3.1220", "0.0015 1",
          partial(left, "rod journal", "3.1235"), note="read"),
    Check(2, WEAR, "thrust surface at its wear limit 3.006: left, share", "0 0",
          partial(left, "thrust surface to counterweight", "3.006"), note="read"),
    *(
        Check(2, JOURNALS, f"{kind} journals {size} undersize", " ".join(REGRIND_JOURNALS[f"{kind} {size}"][:2]),
              partial(ground, f"{kind} standard", f"-{size}"), note="read")
        for kind in ("rod", "main") for size in ("0.010", "0.020", "0.030")
    ),
    Check(2, JOURNALS, "rod journals 0.002 undersize", "2.497 2.498", partial(ground, "rod standard", "-0.002"), note="read"),
    Check(2, JOURNALS, "rows whose inch and millimetre columns disagree", "main 0.002: new_min 2.996 in, alt_new_min 76.124 mm",
          disagreeing, note="read; a misprint of the source"),
    *(
        Check(2, RODS, f"rod journals {size} less 0.010", " ".join(GROUND_RODS[smaller]), partial(next_rod, size), note="read")
        for size, smaller in (("0.010", "0.020"), ("0.020", "0.030"))
    ),
    Check(2, ASTERISKS, "one asterisk: worn beyond the new column", "outside limits",
          lambda: verdict(row("1.0000", "1.0010", worn="new"), Decimal("1.0011")), note="rule read, figures invented"),
    Check(2, ASTERISKS, "two asterisks: worn beyond the new column", "not judged: limit is on the fit",
          lambda: verdict(row("1.0000", "1.0010", worn="fit"), Decimal("1.0011")), note="rule read, figures invented"),
    Check(2, CLEARANCE, "pin to bushing at 0.0021 and at its maximum 0.0025: left", "0.0004 0",
          lambda: [clearance_left("0.0021")[0], clearance_left("0.0025")[0]], note="read"),
    Check(2, CLEARANCE, "pin to bushing at 0.0023: share of the allowance", "0.5", lambda: clearance_left("0.0023")[1],
          note="limits read, reading invented"),
]  # fmt: skip
