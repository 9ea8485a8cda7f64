"""Published figures on angles: pistons, openings, top centre, timing, firing orders."""

from decimal import Decimal

from measurements.metrology.angles.firing_order import (
    double_row_order,
    faults_of_opposed,
    fires_at,
    single_row_order,
)
from measurements.metrology.angles.link_rod import link_rod
from measurements.metrology.angles.openings import closest, down_the_piston
from measurements.metrology.angles.slider_crank import mean_piston_speed, slider_crank
from measurements.metrology.angles.top_centre import top_centre
from measurements.metrology.angles.valve_timing import valve_timing
from tests.published.check import Check

CRANK = "slider-crank, stroke 4.375 in, rod 6.75 in"
METRIC = "slider-crank, stroke 100 mm, rod 170 mm"
LINKED = "link rod reduced to the plain rod of 6.75 in"
FIRING = "FAA powerplant handbook, firing order"
VALVES = "TM 9-8000, figures 2-54 and 2-55"
GAPS = "TM 10-3930-673-34, 3-16"
NUMPY, SYMPY, READ = "computed with numpy", "computed with sympy and scipy", "read"
inch, metric = slider_crank(4.375, 6.75), slider_crank(100, 170)
on_the_master_axis = link_rod(inch, 2.25, 0, 4.5, 0)  # pin on the line to the master's piston: the same piston
at_the_crankpin = link_rod(inch, 0, 0, 6.75, 80)  # pin at the crankpin: a plain rod in a cylinder 80 degrees on

# TM 9-8000: intake open 279 degrees in all; opens 28 before top centre, exhaust closes 45 after it; overlap 73.
# The closing of the intake and the opening of the exhaust follow from the duration: neither is printed on its own.
typical = valve_timing(28, 279 - 180 - 28, 60, 45)


def dashed(order):
    return "-".join(map(str, order))


def after(first, order):
    start = order.index(first)
    return [*order, *order][start : start + 5]


CHECKS = [
    *(
        Check(9, CRANK, f"drop at {degrees} degrees, in", printed, lambda degrees=degrees: inch.drop(degrees), "5e-7", NUMPY)
        for degrees, printed in [
            (10, "0.043930"),
            (25, "0.268559"),
            (45, "0.820322"),
            (90, "2.551786"),
            (120, "3.552544"),
            (180, "4.375"),
        ]
    ),
    Check(9, CRANK, "fastest, degrees", "73.54259", lambda: inch.fastest()[0], "5e-6", SYMPY),
    Check(9, CRANK, "fastest, in per radian", "2.3005235", lambda: inch.fastest()[1], "5e-8", SYMPY),
    Check(9, CRANK, "acceleration at top, throws", "1.324074", lambda: inch.acceleration(0) / 2.1875, "5e-7", SYMPY),
    Check(9, CRANK, "acceleration at bottom, throws", "-0.675926", lambda: inch.acceleration(180) / 2.1875, "5e-7", SYMPY),
    *(
        Check(9, METRIC, f"drop at {degrees} degrees, mm", printed, lambda degrees=degrees: metric.drop(degrees), "5e-7", NUMPY)
        for degrees, printed in [(10, "0.981475"), (25, "6.003004"), (90, "57.519232")]
    ),
    Check(9, METRIC, "fastest, degrees and mm per radian", "74.77681, 52.131248", metric.fastest, "5e-6", SYMPY),
    Check(
        9,
        "stroke 4.375 in at 2700 rpm",
        "mean piston speed, ft/min",
        "1968.75",
        lambda: mean_piston_speed(Decimal("4.375"), 2700) / 12,
    ),
    Check(
        9, LINKED, "drop at 45 degrees, pin on the master's axis", "0.820322", lambda: on_the_master_axis.drop(45), "5e-7", NUMPY
    ),
    Check(
        9,
        LINKED,
        "drop at 120 degrees, pin on the master's axis",
        "3.552544",
        lambda: on_the_master_axis.drop(120),
        "5e-7",
        NUMPY,
    ),
    Check(9, LINKED, "drop 25 degrees on, pin at the crankpin", "0.268559", lambda: at_the_crankpin.drop(105), "5e-7", NUMPY),
    Check(
        9,
        LINKED,
        "rate at 73.54259 degrees, in per radian",
        "2.3005235",
        lambda: on_the_master_axis.velocity(73.54259),
        "5e-8",
        SYMPY,
    ),
    Check(9, FIRING, "five-cylinder radial", "1-3-5-2-4", lambda: dashed(single_row_order(5)), note=READ),
    Check(9, FIRING, "seven-cylinder radial", "1-3-5-7-2-4-6", lambda: dashed(single_row_order(7)), note=READ),
    Check(9, FIRING, "nine-cylinder radial", "1-3-5-7-9-2-4-6-8", lambda: dashed(single_row_order(9)), note=READ),
    Check(
        9, FIRING, "14 cylinders, from 8: 3, 12, 7, 2", "8-3-12-7-2", lambda: dashed(after(8, double_row_order(14))), note=READ
    ),
    Check(9, FIRING, "18 cylinders, from 1", "1-12-5-16-9-2-13", lambda: dashed(double_row_order(18)[:7]), note=READ),
    *(
        Check(
            9,
            FIRING,
            f"opposed {dashed(order)}, faults",
            "none",
            lambda order=order: faults_of_opposed(order) or "none",
            note=READ,
        )
        for order in [(1, 4, 5, 2, 3, 6), (1, 4, 2, 3), (1, 3, 2, 4)]
    ),
    Check(9, "four-stroke, nine cylinders, even", "degrees between firings", "80", lambda: fires_at(single_row_order(9))[3]),
    Check(9, VALVES, "intake open, degrees", "279", lambda: typical.intake_duration, note=READ),
    Check(9, VALVES, "overlap, degrees", "73", lambda: typical.overlap, note=READ),
    Check(9, GAPS, "closest of three gaps, degrees", "120", lambda: closest({"1": 30, "2": 150, "3": 270}).degrees, note=READ),
    Check(
        9,
        GAPS,
        "gap to gap down the piston, degrees",
        "120, 120",
        lambda: [pair.degrees for pair in down_the_piston({"1": 0, "2": 120, "3": 240})],
        note=READ,
    ),
    Check(
        9,
        "positive stop, common practice",
        "stopped at 0 and at 320: half of what is left of the turn, added",
        "340",
        lambda: top_centre(0, 320).reading,
        note="common practice, no source; the rule read in a public forum",
    ),
]
