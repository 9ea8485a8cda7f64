"""Published figures on crank sets: displacement, compression ratio, differential compression, weights and balance."""

from decimal import Decimal as D
from fractions import Fraction

from measurements.metrology.crankset.balance import permissible_unbalance
from measurements.metrology.crankset.compression import least_share, orifice_for, reading
from measurements.metrology.crankset.displacement import (
    clearance_for_ratio,
    clearance_volume,
    compression_ratio,
    displacement,
)
from measurements.metrology.crankset.weights import bob_weight
from measurements.metrology.units import ratio
from tests.published.check import Check

METRIC = "six cylinders, bore 100 mm, stroke 90 mm"
RATIO = "cylinder of 90.251760 in3 at 8.5 to 1"
WORKED = "worked volumes on a public page, bore 4.25 in"
PISTONS = "a piston maker's public calculator, its examples"
HANDBOOK = "FAA powerplant handbook, displacement and compression ratio"
LEAK = "AC 43.13-1B, 8-14"
CRANKING = "shop manual, cranking compression: lowest within 75 percent of highest"
BOB = "bob weight of a public engine-building article, g"
GRADE = "ISO 21940-11 (formerly 1940-1)"
COMPUTED, READ, MEMORY = "computed", "read", "from memory"


def in_cubic_inches():
    return displacement(100, 90, 6) / 1000 * float(ratio("cm3", "in3"))


def loss(held):
    found = reading(held)
    return f"{float(found.loss_percent):g}, {'yes' if found.suspect else 'no'}"


CHECKS = [
    Check(11, METRIC, "displacement, cm3", "4241.1501", lambda: displacement(100, 90, 6) / 1000, "5e-5", COMPUTED),
    Check(11, METRIC, "displacement, in3", "258.8109", in_cubic_inches, "5e-5", COMPUTED),
    Check(11, RATIO, "clearance, in3", "12.033568", lambda: clearance_for_ratio(D("90.251760"), D("8.5")), note=COMPUTED),
    Check(
        11,
        RATIO,
        "clearance, cm3",
        "197.194848",
        lambda: clearance_for_ratio(D("90.251760"), D("8.5")) * ratio("in3", "cm3"),
        "1e-6",
        COMPUTED + "; the source cuts the last digit off",
    ),
    Check(11, HANDBOOK, "14 cylinders, 5.5 by 5.5 in, in3", "1829.4", lambda: displacement(5.5, 5.5, 14), "0.05", MEMORY),
    Check(11, HANDBOOK, "140 in3 at bottom, 20 at top", "7", lambda: compression_ratio(140 - 20, 20), note=MEMORY),
    Check(11, PISTONS, "823.70 swept over 100 above", "9.237", lambda: compression_ratio(D("823.70"), 100), note=READ),
    Check(
        11, PISTONS, "six of 4 by 4 in, in3", "301.5936", lambda: displacement(4, 4, 6), "1e-3", "read; pi/4 taken there as .7854"
    ),
    Check(11, WORKED, "stroke 4 in, in3", "56.74", lambda: displacement(4.25, 4), "0.01", "read; cut off, not rounded"),
    Check(11, WORKED, "gasket of 0.051 in, in3", "0.72", lambda: displacement(4.25, 0.051), "0.005", READ),
    Check(11, WORKED, "volume at top, in3", "5.91", lambda: clearance_volume(map(D, ("3.9", "0.72", "0.07", "1.22"))), note=READ),
    Check(11, WORKED, "ratio", "10.60", lambda: compression_ratio(D("56.74"), D("5.91")), "0.005", READ),
    Check(11, LEAK, "60 of 80 psi: loss, percent; suspect", "25, no", lambda: loss(60), note=COMPUTED),
    Check(11, LEAK, "61 of 80 psi: loss, percent; suspect", "23.75, no", lambda: loss(61), note=COMPUTED),
    Check(11, LEAK, "59 of 80 psi: loss, percent; suspect", "26.25, yes", lambda: loss(59), note=COMPUTED),
    Check(11, LEAK, "72 of 80 psi: loss, percent; suspect", "10, no", lambda: loss(72), note=COMPUTED),
    Check(11, LEAK, "orifice for a bore of 4.99 in", "0.040", lambda: orifice_for(D("4.99")), note=READ),
    Check(11, LEAK, "orifice for a bore of 5.00 in", "0.060", lambda: orifice_for(D("5.00")), note=READ),
    Check(11, CRANKING, "120 of 160: weakest at", "0.75", lambda: least_share({"1": 160, "2": 120, "3": 155})[1], note=READ),
    Check(
        11,
        BOB,
        "big ends 621.5, bearings 45, two rods: turning",
        "1333",
        lambda: bob_weight([D("621.5"), 45] * 2, [1], 0),
        note=READ,
    ),
    Check(
        11,
        BOB,
        "turning 1333 and half of 1000 reciprocating",
        "1833",
        lambda: bob_weight([1333], [1000], Fraction(1, 2)),
        note=READ,
    ),
    Check(11, GRADE, "G 6.3, 1 kg at 3000 rpm, g mm", "20", lambda: permissible_unbalance(6.3, 1, 3000), "0.5", MEMORY),
    Check(11, GRADE, "G 2.5, 1 kg at 3000 rpm, g mm", "8", lambda: permissible_unbalance(2.5, 1, 3000), "0.5", MEMORY),
    Check(11, GRADE, "factor: G 1, 1 kg at 1 rpm, g mm", "9549", lambda: permissible_unbalance(1, 1, 1), "0.5", MEMORY),
]
