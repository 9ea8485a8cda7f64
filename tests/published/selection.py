"""Published figures on choosing by steps: shims, ring gaps, springs, push rods."""

from decimal import Decimal as D
from fractions import Fraction

from measurements.metrology.errors import NoAnswer
from measurements.metrology.held import hold
from measurements.metrology.limits import LimitRow
from measurements.metrology.selection.push_rods import push_rod_for
from measurements.metrology.selection.ring_gap import filing, gap_in_bore
from measurements.metrology.selection.shims import ShimRange, for_backlash, for_end_play, shims_for
from measurements.metrology.selection.valve_spring import from_free_length, rate_of_wire
from measurements.metrology.units import ratio
from tests.published.check import Check

OUTBOARD = "service manuals of outboard gear cases, shimming"
LASH = "shop manual, valve shim with a worked example"
GAPS = "TM 5-6115-545-34, table 1-2"
SHIGLEY = "Shigley, helical springs, first example"
UNLOADER = "TM 5-3810-306-34, 9-8, spring chart"
VALVE_SPRING = "TM 55-1905-223-24-3, table 4-1"
PUMP_SPRING = "TM 5-1940-322-24, valve spring"
READ, MEMORY = "read", "from memory"
BOX = {D(size): 5 for size in ("0.10", "0.12", "0.15", "0.18", "0.30", "0.40", "0.50")}  # as the manuals list them


def pack(wanted):
    """Nearest pack within a hundredth either way, as the manuals allow."""
    around = Fraction(wanted)
    return shims_for(ShimRange(around - Fraction("0.01"), around, around + Fraction("0.01")), BOX).total


def backlash(read):
    """Wanted change of thickness: 0.53 of what the backlash is off the middle of 0.8 to 1.1 mm."""
    return for_backlash(D(read), D("0.8"), D("1.1"), 1, 1 / Fraction("0.53")).wanted - 1


def lash_shim():
    boxed = {D(size): 1 for size in ("1.70", "1.75", "1.80", "1.85", "1.90")}
    return shims_for(for_end_play(D("1.93"), D("0.11"), D("0.17")), boxed, most=1).total


def filed(gap, low, high):
    try:
        found = filing(D(gap), D(low), D(high))
    except NoAnswer:
        return "another ring"
    return found.least, found.greatest


wire = rate_of_wire(D("0.037"), D("0.400"), D("10.5"), 11_850_000)
unloader = LimitRow(
    row="34", part="spring", characteristic="force at 0.980 in", unit="lbf", rule="simple",
    new_min=D(13), new_max=D(17), service_min=D(12),
)  # fmt: skip
working = LimitRow(
    row="1", part="valve spring", characteristic="force at 1.724 in", unit="lbf", rule="simple",
    new_min=D("147.25"), new_max=D("162.75"),
)  # fmt: skip


def from_millimetres(load_n):
    """Load at 1.94 in, in lbf, of the spring that the metric columns describe: 60.00 mm free, the load at 49.25 mm."""
    spring = from_free_length(D("60.00"), D("49.25"), load_n)
    return spring.load_at(Fraction("1.94") * ratio("in", "mm")) / ratio("lbf", "N")


CHECKS = [
    Check(10, OUTBOARD, "0.76 mm from the box", "0.76", lambda: pack("0.76"), note=READ),
    Check(10, OUTBOARD, "0.41 mm cannot be made: 0.01 mm off", "0.40", lambda: pack("0.41"), note=READ),
    Check(10, OUTBOARD, "0.62 fitted and 0.14 more, mm", "0.76", lambda: for_end_play(D("0.76"), 0, 0).wanted, note=READ),
    Check(10, OUTBOARD, "backlash 1.25 mm: thicker by", "0.159", lambda: backlash("1.25"), note=READ),
    Check(10, OUTBOARD, "backlash 0.75 mm: thinner by", "-0.106", lambda: backlash("0.75"), note=READ),
    Check(
        10,
        LASH,
        "1.93 mm, standard 0.11 to 0.17: thickness",
        "1.79",
        lambda: for_end_play(*map(D, ("1.93", "0.11", "0.17"))).wanted,
    ),
    Check(10, LASH, "1.93 mm: the shim to take", "1.80", lash_shim, note=READ),
    Check(10, GAPS, "first ring read 0.010: file off", "0.003, 0.017", lambda: filed("0.010", "0.013", "0.027"), note=READ),
    Check(10, GAPS, "first ring read 0.028", "another ring", lambda: filed("0.028", "0.013", "0.027"), note=READ),
    Check(10, GAPS, "third ring read 0.024: file off", "0, 0", lambda: filed("0.024", "0.013", "0.024"), note=READ),
    Check(
        10,
        "circumference of a circle",
        "gap 0.020 in a bore 0.003 larger",
        "0.029425",
        lambda: gap_in_bore(0.020, 5.125, 5.128),
        "5e-7",
        "definition of pi",
    ),
    Check(10, SHIGLEY, "rate, lbf/in", "4.13", lambda: wire, "0.005", MEMORY),
    Check(10, SHIGLEY, "deflection under 6.46 lbf, in", "1.56", lambda: Fraction("6.46") / wire, "0.005", MEMORY),
    Check(
        10,
        SHIGLEY,
        "load at solid length 0.500 of 2.06 free, lbf",
        "6.46",
        lambda: from_free_length(D("2.06"), D("2.06") - 1, wire).load_at(D("0.500")),
        "0.03",
        MEMORY,
    ),
    Check(10, UNLOADER, "13.00 lb", "within new limits", lambda: hold([13], unloader).verdict, note=READ),
    Check(10, UNLOADER, "12.00 lb", "serviceable", lambda: hold([12], unloader).verdict, note=READ),
    Check(10, UNLOADER, "11.99 lb", "outside limits", lambda: hold([D("11.99")], unloader).verdict, note=READ),
    Check(10, VALVE_SPRING, "162.75 lb", "within new limits", lambda: hold([D("162.75")], working).verdict, note=READ),
    Check(10, VALVE_SPRING, "147.2 lb: replace", "outside limits", lambda: hold([D("147.2")], working).verdict, note=READ),
    Check(
        10,
        PUMP_SPRING,
        "359 N at 49.25 mm in lb at 1.94 in",
        "80.7",
        lambda: from_millimetres(359),
        "0.3",
        "read; 1.94 in is good to 0.9 lb",
    ),
    Check(
        10,
        PUMP_SPRING,
        "397 N at 49.25 mm in lb at 1.94 in",
        "89.2",
        lambda: from_millimetres(397),
        "0.3",
        "read; 1.94 in is good to 0.9 lb",
    ),
    Check(
        10,
        "dry clearance 0.028 to 0.080, a magazine's column on upkeep",
        "0.095 read: rods 0.030 apart",
        "B",
        lambda: (
            push_rod_for(D("0.095"), "A", {"A": D("11.000"), "B": D("11.030"), "C": D("11.090")}, D("0.028"), D("0.080")).name
        ),
        note="limits read; the list of rods is ours",
    ),
]
