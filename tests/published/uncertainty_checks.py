"""Group 5, uncertainty and decisions: the end gauge of the GUM, probabilities, risks."""

from functools import partial

from measurements.metrology.uncertainty.budget import combined, effective_degrees, expanded, second_order
from measurements.metrology.uncertainty.components import Component, rectangular, repeatability, resolution
from measurements.metrology.uncertainty.guard import guard_for_risk
from measurements.metrology.uncertainty.probability import conformance_probability
from measurements.metrology.uncertainty.risk import process_sd_for_share, risks
from tests.published.check import Check
from tests.published.limit_tables import CONFORMITIES, GUARD_BANDS
from tests.published.uncertainty import (
    END_GAUGE,
    END_GAUGE_COMBINED,
    END_GAUGE_DEGREES,
    END_GAUGE_EXPANDED_99,
    END_GAUGE_FACTOR_99,
    END_GAUGE_SECOND_ORDER,
    IN_TOLERANCE,
    TWO_SIDED,
)

GUM = "JCGM 100, annex H.1, end gauge of 50 mm"
FORMULA = "JCGM 106, 7, probability of conformity"
GUARD = "JCGM 106, 8.3, one-sided guard band of k u"
TWO_SIDED_RISK = "A published test of two-sided risk: process deviation 4, u 1, limits ±8"
DRAFT = "A draft table of a calibration practice: u a quarter of the process, limits ±1"
BUDGET = [Component(*row) for row in END_GAUGE]


def false_accept_percent(share: float) -> float:
    sd = process_sd_for_share(1, share)
    return 100 * risks(0, sd, sd / 4, -1, 1).false_accept


CHECKS = [
    Check(5, GUM, "combined standard uncertainty, nm", str(END_GAUGE_COMBINED), lambda: combined(BUDGET), "0.005", "read: 32"),
    Check(5, GUM, "effective degrees of freedom", str(END_GAUGE_DEGREES), lambda: effective_degrees(BUDGET), "0.01", "read: 16"),
    Check(5, GUM, "degrees of freedom used", "16", lambda: expanded(BUDGET, 0.99).degrees, note="from memory"),
    Check(5, GUM, "coverage factor of 99 %", str(END_GAUGE_FACTOR_99), lambda: expanded(BUDGET, 0.99).coverage_factor, "0.00005",
          "from memory: 2.92"),
    Check(5, GUM, "expanded uncertainty of 99 %, nm", str(END_GAUGE_EXPANDED_99), lambda: expanded(BUDGET, 0.99).value, "0.05",
          "from memory: 93, rounded up"),
    Check(5, GUM, "with second-order terms, nm", str(END_GAUGE_SECOND_ORDER),
          lambda: second_order(combined(BUDGET), [50e6 * 0.58e-6 * 0.41, 50e6 * 1.2e-6 * 0.029]), "0.5", "read"),
    Check(5, GUM, "expansion within ±1e-6 and ±0.05 K: standard uncertainties, nm", "2.88679 16.599",
          lambda: [rectangular("d", 1e-6, 50e6 * 0.1).contribution, rectangular("t", 0.05, 50e6 * 11.5e-6).contribution],
          "0.0006", "read"),
    Check(5, "JCGM 100, F.2.2.1", "resolution of 1: standard uncertainty", "0.289", lambda: resolution("r", 1).standard, "0.0005",
          "from memory: 0.29 of the step"),
    Check(5, "Shigley, table 8-14, ten preloads in kN", "standard deviation", "2.88128",
          lambda: repeatability("preload", [30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5]).standard, "0.000005",
          "read"),
    *(
        Check(5, FORMULA, f"{value} with u {u}, from {low} to {high}", f"{expected:.4f}",
              partial(conformance_probability, float(value), float(u), None if low is None else float(low),
                      None if high is None else float(high)), "0.00005", "inputs from memory")
        for value, u, low, high, expected in CONFORMITIES
    ),
    *(
        Check(5, GUARD, f"k = {k}: least probability", f"{expected:.6f}",
              partial(lambda k: conformance_probability(-k, 1, None, 0), float(k)), "0.0000005", "computed, normal distribution")
        for k, expected in GUARD_BANDS
    ),
    Check(5, GUARD, "guard for a false-accept risk of 2.275 %, in u", "2.000", lambda: guard_for_risk(1, 0.022750), "0.0005",
          "computed, normal distribution"),
    Check(5, TWO_SIDED_RISK, "false accept, false reject", " ".join(map(str, TWO_SIDED)),
          lambda: [risks(0, 4, 1, -8, 8).false_accept, risks(0, 4, 1, -8, 8).false_reject], "0.0000005", "read: 0.008, 0.015"),
    *(
        Check(5, DRAFT, f"{share:.0%} within: false accept, percent", f"{expected:.5f}", partial(false_accept_percent, share),
              "0.000005", "read")
        for share, expected in IN_TOLERANCE
    ),
]  # fmt: skip
