"""Published figures on torque, preload, stretch and tightening, each with its source. No limit here is for an aircraft engine."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

from measurements.metrology.fasteners.adapter import applied_by, setting_for
from measurements.metrology.fasteners.bolt import (
    Section,
    bolt_share,
    bolt_stress,
    shank_and_thread,
    stiffness,
    tensile_area_inch,
    tensile_area_metric,
)
from measurements.metrology.fasteners.castle import Stop, Turn, next_step, window
from measurements.metrology.fasteners.patterns import star
from measurements.metrology.fasteners.preload import preload_from_torque, torque_for_preload
from measurements.metrology.fasteners.stretch import After, RetryRule, Step, decide, find, stretch_read
from measurements.metrology.fasteners.wrench import Wrench, deviations, faults, usable_range
from tests.published.check import Check


def D(text):
    return Decimal(text)


# TM 55-1905-223-24-1: the stretch of a connecting rod bolt, inches, and its retry rule as data.
STRETCH = (D("0.0135"), D("0.0185"))
ROD_BOLT = RetryRule(
    over=(Step("replace the bolt", After.ANEW),),
    under=(Step("loosen both, tighten the low one further"), Step("replace rod and bolt", After.END)),
)
# AC 43.13-1B, table 7-1, 3/8-24 in tension, lbf·in; the drag is invented.
CASTLE = window(160, 190, 15)


def decided(*stretches):
    found = decide([D(one) for one in stretches], *STRETCH, ROD_BOLT)
    return f"{found.action or found.outcome}"


def shear_from_tension(tension_torque, diameter):
    """Table 7-1 is for 90 ksi on tension nuts, 54 ksi on shear nuts: at one nut factor the torques go as the stresses."""
    force = preload_from_torque(tension_torque, D(diameter), Fraction(1, 5)) * Fraction(54, 90)
    return torque_for_preload(force, D(diameter), Fraction(1, 5))


def standard_bolt_stiffness():
    shank, thread = shank_and_thread(D("0.5"), D("1.5"), 1)
    whole = Fraction("0.7853981633974483") * Fraction(1, 4)
    return stiffness([Section(shank, whole, 30_000_000), Section(thread, D("0.1599"), 30_000_000)])


def shigley_stress():
    return bolt_stress(25, 6, bolt_share(D("6.50"), D("13.8")), D("0.373"))


def deviation_within(indicated, given, most):
    return deviations([(D(indicated), D(given))], D(most))[0].within


def standing(setting=100, on=date(2026, 6, 1), **more):
    return [fault.name for fault in faults(Wrench(*usable_range(250, D("0.2")), date(2026, 6, 1), **more), setting, on)]


TM254, TM204 = "TM 9-254, figures 45 and 46", "TM 1-1500-204-23-9, chapter 8"
BOLT, AREAS, METRIC = "Shigley, bolts", "Shigley, table 8-2, tensile stress areas", "ISO 898-1, tensile stress areas"
ROD, AC740, AC71 = "TM 55-1905-223-24-1, rod bolt stretch", "AC 43.13-1B, 7-40", "AC 43.13-1B, table 7-1"
PCC, ISO6789 = "ASME PCC-1, legacy cross pattern", "ISO 6789, greatest deviation"


def check(source, quantity, expected, computed, tolerance="exact", note="read"):
    return Check(8, source, quantity, expected, computed, tolerance, note)


def area(size, threads, expected):
    return check(AREAS, size, expected, lambda: tensile_area_inch(D(size.split()[0]), threads), "0.0002", "from memory")


def metric(size, pitch, expected, tolerance):
    return check(METRIC, f"M{size}", expected, lambda: tensile_area_metric(size, D(pitch)), tolerance, "from memory")


def pattern(count, expected):
    return check(PCC, f"{count} bolts", expected, lambda: star(count), note="from memory")


CHECKS = [
    check(TM254, "applied, set 60 lbf·in, wrench 12 in, extension 2 in", "70", lambda: applied_by(60, 12, 2).value),
    check(TM254, "set for 70 lbf·in", "60", lambda: setting_for(70, 12, 2).value),
    check(
        TM254,
        "applied at 60 degrees, set 60, by the printed formula",
        "65",
        lambda: applied_by(60, 12, 2, 60).value,
        note="formula read, arithmetic by hand",
    ),
    check("TM 9-2350-261-20-1, adapter", "set for 40 lbf·ft, wrench 12, adapter 4", "30", lambda: setting_for(40, 12, 4).value),
    check("TM 9-2350-277-20-2, adapters", "right angle: read direct", "40", lambda: setting_for(40, 12, 4, 90).value),
    check(TM204, "indicated for 300 lbf·in, wrench 10, attachment 4", "214", lambda: setting_for(300, 10, 4).value, "0.5"),
    check(TM204, "attachment pointing back shortens by its length", "500", lambda: setting_for(300, 10, 4, 180).value),
    check(TM204, "usable range of 250, from 20 percent", "50 to 250", lambda: usable_range(250, D("0.2"))),
    check(TM204, "4 percent of reading, 100 shown as 104", "yes", lambda: deviation_within("104", "100", "0.04")),
    check(TM204, "4 percent of reading, 100 shown as 104.1", "no", lambda: deviation_within("104.1", "100", "0.04")),
    check(TM204, "below 20 percent of full scale", "BELOW_RANGE", lambda: standing(setting=49)),
    check(TM204, "dropped wrench", "MISUSED", lambda: standing(misused=True)),
    check(BOLT, "example 8-3, preload stress, kpsi", "67.02", lambda: bolt_stress(25, 0, 0, D("0.373")), "0.005"),
    check(BOLT, "example 8-3, share of the load", ".320", lambda: bolt_share(D("6.50"), D("13.8")), "0.0005"),
    check(BOLT, "example 8-3, stress under load, kpsi", "72.17", shigley_stress, "0.005"),
    check(
        BOLT, "example 8-3, torque, lbf·in", "3750", lambda: torque_for_preload(25_000, D("0.75"), D("0.2")), note="from memory"
    ),
    check(BOLT, "table 8-7, shank and thread in the grip", ".25 .75", lambda: shank_and_thread(D("0.5"), D("1.5"), 1)),
    check(
        BOLT,
        "table 8-7, stiffness, lbf/in",
        "5.03046e6",
        standard_bolt_stiffness,
        "5",
        "formula read, number computed with Python",
    ),
    area("0.25 in, 28 threads", 28, "0.0364"),
    area("0.375 in, 24 threads", 24, "0.0878"),
    area("0.4375 in, 20 threads", 20, "0.1187"),
    area("0.5 in, 20 threads", 20, "0.1599"),
    area("0.75 in, 16 threads", 16, "0.373"),
    metric(6, "1", "20.1", "0.05"),
    metric(8, "1.25", "36.6", "0.05"),
    metric(10, "1.5", "58.0", "0.05"),
    metric(12, "1.75", "84.3", "0.05"),
    metric(16, "2", "157", "0.5"),
    check(ROD, "limits in mm", "0.343 to 0.470", lambda: [Fraction(one) * Fraction("25.4") for one in STRETCH], "0.0005"),
    check(ROD, "stretch of exactly 0.0135", "within limits", lambda: str(find(stretch_read(D("0.1000"), D("0.1135")), *STRETCH))),
    check(ROD, "over 0.0185", "replace the bolt", lambda: decided("0.0186")),
    check(ROD, "over, the new bolt over again", "replace the bolt", lambda: decided("0.0186", "0.0187")),
    check(ROD, "under 0.0135", "loosen both, tighten the low one further", lambda: decided("0.0134")),
    check(ROD, "still under", "replace rod and bolt", lambda: decided("0.0134", "0.0134")),
    check(ROD, "under, then right", "accept", lambda: decided("0.0134", "0.0150")),
    check(AC740, "castle nut, minimum and maximum with a drag of 15", "175 to 205", lambda: [CASTLE.least, CASTLE.greatest]),
    check(AC740, "slot met before the minimum", "TIGHTEN_ON", lambda: next_step([Stop(174, True)], CASTLE).name),
    check(AC740, "slot met at the maximum", "LOCK", lambda: next_step([Stop(175, False), Stop(205, True)], CASTLE).name),
    check(AC740, "slot met above the maximum", "OVER", lambda: next_step([Stop(175, False), Stop(206, True)], CASTLE).name),
    check(
        AC740, "backed off to align", "VOID", lambda: next_step([Stop(190, False), Stop(180, True, Turn.BACKED_OFF)], CASTLE).name
    ),
    check(AC740, "wrench past its interval", "LAPSED", lambda: standing(on=date(2026, 6, 2))),
    check(AC71, "1/4-28, greatest on shear nuts", "60", lambda: shear_from_tension(100, "0.25")),
    check(AC71, "1/2-20, greatest on shear nuts", "660", lambda: shear_from_tension(1100, "0.5")),
    check(AC71, "9/16-18, greatest on shear nuts", "960", lambda: shear_from_tension(1600, "0.5625")),
    check(AC71, "7/8-14, greatest on shear nuts", "4200", lambda: shear_from_tension(7000, "0.875")),
    pattern(4, "1 3 2 4"),
    pattern(8, "1 5 3 7 2 6 4 8"),
    pattern(12, "1 7 4 10 2 8 5 11 3 9 6 12"),
    pattern(16, "1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16"),
    pattern(20, "1 11 6 16 3 13 8 18 5 15 10 20 2 12 7 17 4 14 9 19"),
    pattern(24, "1 13 7 19 4 16 10 22 2 14 8 20 5 17 11 23 3 15 9 21 6 18 12 24"),
    check(ISO6789, "above 10 N·m, 4 percent", "yes", lambda: deviation_within("52", "50", "0.04"), note="from memory"),
    check(ISO6789, "above 10 N·m, beyond 4 percent", "no", lambda: deviation_within("47.9", "50", "0.04"), note="from memory"),
    check(ISO6789, "up to 10 N·m, 6 percent", "yes", lambda: deviation_within("4.7", "5", "0.06"), note="from memory"),
]
