"""Group 3, form: circles, planes, lobes, run-out, taper."""

import math
from decimal import Decimal
from functools import partial

import numpy as np

from measurements.metrology.form.least_squares import algebraic_circle, least_squares_circle, least_squares_plane
from measurements.metrology.form.lobing import blind_lobes, two_point_sensitivity, vee_sensitivity
from measurements.metrology.form.runout import eccentricity, runout, throw
from measurements.metrology.form.section import section
from measurements.metrology.form.taper import choke
from tests.published.check import Check
from tests.published.form import ALGEBRAIC, CIRCLE_POINTS, GEOMETRIC, VEE

CIRCLE = "Gander, Golub and Strebel 1994, fitting circles"
SCIPY = "SciPy, minimize over the direction of the plane"
VEE_BLOCK = "Geometry of a vee block, own derivation"
JOURNALS = "TM 5-3805-262-34, 4-1"
DIALS = "ISO 1101, circular run-out"
# Heights at nine places of a joint face, mm: invented.
FACE = [(x, y, z) for (x, y), z in zip(
    [(x, y) for x in (0, 40, 80) for y in (0, 30, 60)],
    (0.012, 0.004, -0.003, 0.000, -0.011, 0.002, -0.006, 0.001, 0.015), strict=True)]  # fmt: skip


def dial_on_centres(eccentric: float) -> float:
    """The once-a-turn part of what a dial reads on a round journal that runs so far off centre."""
    angles = np.radians(np.arange(0, 360, 30))
    return throw(list(eccentric * np.cos(angles - math.radians(70)))).indicated


CHECKS = [
    Check(3, CIRCLE, "geometric centre", " ".join(map(str, GEOMETRIC[:2])),
          lambda: [least_squares_circle(CIRCLE_POINTS).x, least_squares_circle(CIRCLE_POINTS).y], "0.000005", "from memory"),
    Check(3, CIRCLE, "geometric radius", str(GEOMETRIC[2]), lambda: least_squares_circle(CIRCLE_POINTS).radius, "0.000005",
          "from memory"),
    Check(3, CIRCLE, "sum of squared distances", str(GEOMETRIC[3]), lambda: least_squares_circle(CIRCLE_POINTS).sum_of_squares,
          "0.00000005", "computed with SciPy"),
    Check(3, CIRCLE, "algebraic centre", " ".join(map(str, ALGEBRAIC[:2])),
          lambda: [algebraic_circle(CIRCLE_POINTS).x, algebraic_circle(CIRCLE_POINTS).y], "0.000005", "from memory"),
    Check(3, CIRCLE, "algebraic radius", str(ALGEBRAIC[2]), lambda: algebraic_circle(CIRCLE_POINTS).radius, "0.000005",
          "from memory"),
    Check(3, SCIPY, "flatness of nine points, mm", "0.0251667", lambda: least_squares_plane(FACE).flatness,
          "0.0000005", "points invented; computed with SciPy"),
    *(
        Check(3, VEE_BLOCK, f"{lobes} lobes in a vee of {angle} degrees", str(expected),
              partial(lambda lobes, angle: abs(vee_sensitivity(lobes, angle)), lobes, angle), "0.0000005", "computed by geometry")
        for angle, lobes, expected in VEE[3:]
    ),
    Check(3, VEE_BLOCK, "lobes up to 7 that a vee of 60 degrees hides", "2, 4, 5, 7", lambda: blind_lobes(60, 7).__str__()[1:-1],
          note="computed by geometry"),
    Check(3, "A body of constant width (Reuleaux) measures alike in every direction", "two points on three lobes", "0",
          lambda: two_point_sensitivity(3), note="definition"),
    Check(3, DIALS, "dial reading of 0.002 off centre", "0.004", lambda: dial_on_centres(0.002), "1e-15", "definition: twice"),
    Check(3, DIALS, "off centre by a dial reading of 0.003", "0.0015", lambda: eccentricity(Decimal("0.003")),
          note="definition: half"),
    Check(3, DIALS, "run-out of readings from -0.0008 to 0.0012", "0.0020",
          lambda: runout([Decimal("0.0012"), Decimal("0"), Decimal("-0.0008")]), note="definition: greatest less least"),
    Check(3, JOURNALS, "diameters 90 degrees apart, at the greatest out-of-round", "0.0005",
          lambda: section([Decimal("2.7485"), Decimal("2.7480")]).out_of_round, note="rule read, diameters invented"),
    Check(3, "TM 9-2815-200-35, p. 6-55", "a barrel narrower at the head: choke", "0.0020",
          lambda: choke({"skirt": [Decimal("5.1262")], "head": [Decimal("5.1242")]}, "skirt", "head").mean,
          note="that it has this sign: read; diameters invented"),
]  # fmt: skip
