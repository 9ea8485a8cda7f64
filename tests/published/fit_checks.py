"""Group 4, fits: from limits of parts, by ISO 286, with temperature."""

from decimal import Decimal
from fractions import Fraction
from functools import partial

from measurements.metrology.fits import fit_of_limits, loose_or_tight, read_loose_or_tight
from measurements.metrology.iso286.fit import standard_fit
from measurements.metrology.iso286.grades import tolerance
from measurements.metrology.stack import Member, stack
from measurements.metrology.thermal import clearance_change, referred_to_20, size_at, warming_for_clearance
from tests.published.check import Check
from tests.published.form import ISO_FITS, ISO_GRADES
from tests.published.limit_tables import BUSHING_BORE, PIN, PISTON_BORE, PRINTED_PIN_IN_BUSHING, PRINTED_PIN_IN_PISTON

PINS = "TM 5-6115-545-34, table 1-2"
LETTERS = "TM 9-2520-234-35, paragraph 235"
ISO = "ISO 286-2, fits as public tables and a reference library give them"
GRADES = "ISO 286-1, standard tolerances in a public bar-stock table"
GROWTH = "ISO 1 and the coefficients of JCGM 100 H.1 (steel) and common tables"
D = Decimal


def of_parts(hole, pin) -> list[Fraction]:
    found = fit_of_limits(*map(D, hole), *map(D, pin))
    return [found.tightest, found.loosest]


def iso(nominal: str, hole: str, shaft: str) -> list[Fraction]:
    found = standard_fit(D(nominal), hole, shaft)
    return [found.tightest * 1000, found.loosest * 1000]


CHECKS = [
    Check(4, PINS, "piston pin in piston", " ".join(PRINTED_PIN_IN_PISTON), partial(of_parts, PISTON_BORE, PIN), note="read"),
    Check(4, PINS, "piston pin in bushing", " ".join(PRINTED_PIN_IN_BUSHING), partial(of_parts, BUSHING_BORE, PIN), note="read"),
    Check(4, PINS, "piston pin in piston, mean and kind", "0.0003 clearance",
          lambda: f"{float(fit_of_limits(*map(D, PISTON_BORE), *map(D, PIN)).mean)} "
          + fit_of_limits(*map(D, PISTON_BORE), *map(D, PIN)).kind, note="mean by arithmetic"),
    Check(4, LETTERS, "0.0005 loose, 0.0003 tight, size for size", "0.0005L 0.0003T 0",
          lambda: " ".join(loose_or_tight(D(each)) for each in ("0.0005", "-0.0003", "0")), note="letters read"),
    Check(4, LETTERS, "0.0003T as a clearance", "-0.0003", lambda: read_loose_or_tight("0.0003T"), note="letters read"),
    *(
        Check(4, ISO, f"{nominal} {hole}/{shaft}, tightest and loosest, µm",
              f"{of_hole[0] - of_shaft[1]} {of_hole[1] - of_shaft[0]}", partial(iso, nominal, hole, shaft))
        for nominal, hole, shaft, of_hole, of_shaft in ISO_FITS[:10]
    ),
    *(
        Check(4, GRADES, f"IT6, 7, 8, 9, 11 at {nominal} mm, µm", " ".join(map(str, expected)),
              partial(lambda nominal: [tolerance(D(nominal), grade) for grade in (6, 7, 8, 9, 11)], nominal), note="read")
        for nominal, expected in ISO_GRADES.items()
    ),
    Check(4, GRADES, "IT7 at 30.000 and at 30.001 mm", "21 25", lambda: [tolerance(D("30.000"), 7), tolerance(D("30.001"), 7)],
          note="ranges are over and up to and including"),
    Check(4, GROWTH, "100 mm of steel at 30 °C", "100.0115", lambda: size_at(100, D("11.5e-6"), 30), note="coefficient read"),
    Check(4, GROWTH, "130 mm 15 K warmer, steel and aluminium, µm", "22.425 45.045",
          lambda: [1000 * (size_at(130, D(each), 35) - 130) for each in ("11.5e-6", "23.1e-6")], note="aluminium from memory"),
    Check(4, GROWTH, "130 mm of aluminium read with a steel gauge at 35 °C reads large by, mm", "0.022425",
          lambda: 130 - referred_to_20(130, D("23.0e-6"), 35, D("11.5e-6"), 35)),
    Check(4, GROWTH, "5.125 in 10 K warmer: steel, aluminium, cast iron", "0.000589 0.001179 0.000538",
          lambda: [size_at(D("5.125"), D(each), 30) - Fraction("5.125") for each in ("11.5e-6", "23e-6", "10.5e-6")], "0.0000005",
          "cast iron from memory"),
    Check(4, GROWTH, "shrink fit of 0.0045 in on 5.5 in, 13e-6 per °F: rise in °F", "62.94",
          lambda: warming_for_clearance(D("0.0045"), D("5.5"), D("13e-6")), "0.005"),
    Check(4, GROWTH, "a steel journal of 2.5 in in an aluminium case, 20 to 120 °C: looser by", "0.002875",
          lambda: clearance_change(D("2.5"), D("2.5"), D("23e-6"), D("11.5e-6"), 20, 120), note="by arithmetic"),
    Check(4, "Root-sum-square tolerancing, two members of ±0.003 and ±0.004", "half spread", "0.005",
          lambda: stack([Member("a", 0, D("0.006")), Member("b", 0, D("0.008"), -1)]).half_spread, "1e-15",
          "common practice, no source: 3, 4, 5"),
]  # fmt: skip
