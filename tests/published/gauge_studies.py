"""Published gauge studies and control charts; the readings stand beside this file as data."""

import csv
from decimal import Decimal
from functools import cache
from pathlib import Path

from measurements.metrology.charts import capability as capable
from measurements.metrology.charts.constants import control_constants
from measurements.metrology.charts.subgroups import (
    averages_and_deviations,
    averages_and_ranges,
    beyond_limits,
    individuals,
)
from measurements.metrology.gauge_study.average_range import by_average_and_range
from measurements.metrology.gauge_study.bias import bias
from measurements.metrology.gauge_study.linearity import bias_at, linearity, percent_linearity
from measurements.metrology.gauge_study.result import categories, distinct_categories, percent_of_total
from measurements.metrology.gauge_study.study import Study, study_from_rows
from measurements.metrology.gauge_study.variance import by_variance, crossed, interaction_probability, one_way
from measurements.metrology.regression import line, slope_interval
from tests.published.check import Check

HERE = Path(__file__).parent

# Three appraisers, ten parts, three trials (AIAG MSA 4th edition; readings from memory).
CROSSED = "AIAG MSA 4th edition, study of 10 parts, 3 appraisers, 3 trials"
# Fifteen readings of a part of 6.00 (AIAG MSA 3rd edition, page 86; readings and figures read in a discussion of that page).
BIAS = "AIAG MSA 3rd edition, p. 86, bias of 15 readings"
BIAS_READINGS = "5.8 5.7 5.9 5.9 6.0 6.1 6.0 6.1 6.4 6.3 6.0 6.1 6.2 5.6 6.0"
# Five parts of known size, twelve readings each (first 41 and all results read on a published sheet; the rest from memory,
# confirmed by the averages that the sheet prints).
LINEARITY = "AIAG MSA linearity study of 5 parts, 12 readings each, as a study sheet prints it"
LINEARITY_READINGS = {
    "2": "2.7 2.5 2.4 2.5 2.7 2.3 2.5 2.5 2.4 2.4 2.6 2.4",
    "4": "5.1 3.9 4.2 5.0 3.8 3.9 3.9 3.9 3.9 4.0 4.1 3.8",
    "6": "5.8 5.7 5.9 5.9 6.0 6.1 6.0 6.1 6.4 6.3 6.0 6.1",
    "8": "7.6 7.7 7.8 7.7 7.8 7.8 7.8 7.7 7.8 7.5 7.6 7.7",
    "10": "9.1 9.3 9.5 9.3 9.4 9.5 9.5 9.5 9.6 9.2 9.3 9.4",
}
STRD = "NIST StRD, {} (certified values)"
RINGS = "Piston-ring inside diameters, 40 samples of 5, mm (Montgomery; R package qcc)"
CONSTANTS = "Control chart constants, as printed in ISO 7870-2 and ASTM E2587 tables"
# Ten flow rates (from memory; the averages that the page prints agree).
FLOW = "NIST/SEMATECH e-Handbook 6.3.2.2, individuals chart of flow rates"
FLOW_RATES = "49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1"
HANDBOOK_CAPABILITY = "NIST/SEMATECH e-Handbook 6.1.6, capability example"
TRIAL_SAMPLES = 25


def decimals(text: str) -> list[Decimal]:
    return [Decimal(each) for each in text.split()]


def rows(name: str) -> list[dict[str, str]]:
    with (HERE / name).open(newline="") as source:
        return list(csv.DictReader(source))


@cache
def crossed_study() -> Study:
    return study_from_rows((row["a"], row["p"], Decimal(row["y"])) for row in rows("gauge_study_from_memory.csv"))


@cache
def instruments(name: str, column: str) -> object:
    groups: dict[str, list[Decimal]] = {}
    for row in rows(name):
        groups.setdefault(row["instrument"], []).append(Decimal(row[column]))
    return one_way(list(groups.values()))


@cache
def rings() -> list[list[Decimal]]:
    diameters = [Decimal(row.split()[0]) for row in (HERE / "piston_rings.txt").read_text().splitlines()[1:]]
    return [diameters[start : start + 5] for start in range(0, len(diameters), 5)]


def trial() -> list[list[Decimal]]:
    return rings()[:TRIAL_SAMPLES]


def anova():
    return by_variance(crossed_study())


def ranges():
    return by_average_and_range(crossed_study())


def share(result, name: str) -> float:
    return percent_of_total(result, getattr(result, name))


def by_range_of_readings():
    """The page takes repeatability from the range of the fifteen readings: 0.8 over d2* 3.55333, with 10.8 degrees of freedom."""
    return bias(decimals(BIAS_READINGS), 6, Decimal("0.8") / Decimal("3.55333"), Decimal("10.8"))


def linear():
    return linearity({Decimal(size): decimals(text) for size, text in LINEARITY_READINGS.items()})


def calibration():
    points = rows("calibration_line.csv")
    return line([Decimal(point["x"]) for point in points], [Decimal(point["y"]) for point in points])


def flow():
    return individuals(decimals(FLOW_RATES))


def rings_capability():
    return capable.capability(
        Decimal("74.001176"), Decimal("0.02276") / Decimal("2.326"), 124, Decimal("73.95"), Decimal("74.05")
    )


def bounds(interval) -> tuple[float, float]:
    return interval.low, interval.high


def samples_out() -> str:
    chart = averages_and_ranges(trial())
    averages = [sum(sample) / 5 for sample in rings()]
    found = beyond_limits(chart, averages, [max(sample) - min(sample) for sample in rings()])
    return ", ".join(str(index + 1) for index in found.location) + (" and by range" if found.spread else "")


def constants(name: str, sizes: tuple[int, ...]) -> list[float]:
    return [getattr(control_constants(size), name) for size in sizes]


FROM_MEMORY = "readings from memory; computed with NumPy, statsmodels and lme4"
CHECKS = [
    Check(14, f"{CROSSED}, analysis of variance", "SS of appraisers, parts, interaction, equipment, total",
          "3.1673 88.3619 0.3590 2.7589 94.6471",
          lambda: [source.squares for source in vars(crossed(crossed_study())).values()], "0.00005", FROM_MEMORY),
    Check(14, f"{CROSSED}, analysis of variance", "probability of the interaction", "0.974",
          lambda: interaction_probability(crossed(crossed_study())), "0.0005", FROM_MEMORY),
    Check(14, f"{CROSSED}, analysis of variance", "EV, AV, GRR, PV, TV", "0.199933 0.226838 0.302372 1.042327 1.085300",
          lambda: [anova().repeatability, anova().reproducibility, anova().gauge, anova().part, anova().total], "0.0000005",
          FROM_MEMORY),
    Check(14, f"{CROSSED}, analysis of variance", "%GRR, %EV, %AV, %PV", "27.86 18.42 20.90 96.04",
          lambda: [share(anova(), name) for name in ("gauge", "repeatability", "reproducibility", "part")], "0.005", FROM_MEMORY),
    Check(14, f"{CROSSED}, analysis of variance", "categories before the cut", "4.86", lambda: categories(anova()), "0.005",
          FROM_MEMORY),
    Check(14, f"{CROSSED}, analysis of variance", "number of distinct categories", "4", lambda: distinct_categories(anova()),
          note=FROM_MEMORY),
    Check(14, f"{CROSSED}, average and range", "EV, AV, GRR", "0.20188 0.22963 0.30575",
          lambda: [ranges().repeatability, ranges().reproducibility, ranges().gauge], "0.0001",
          "digits of the manual from memory; it rounds the mean range first"),
    Check(14, f"{CROSSED}, average and range", "PV, TV", "1.10460 1.14613", lambda: [ranges().part, ranges().total], "0.0002",
          "readings from memory; computed with the manual's K3, which it rounds to four digits"),
    Check(14, f"{CROSSED}, average and range", "%EV, %AV, %GRR, %PV", "17.61 20.04 26.68 96.38",
          lambda: [share(ranges(), name) for name in ("repeatability", "reproducibility", "gauge", "part")], "0.006",
          "readings from memory; computed with the manual's K3, which it rounds to four digits"),
    Check(14, f"{CROSSED}, average and range", "number of distinct categories", "5", lambda: distinct_categories(ranges()),
          note=FROM_MEMORY),
    Check(14, BIAS, "average, bias", "6.0067 0.0067", lambda: [by_range_of_readings().average, by_range_of_readings().bias],
          "0.00005", "read"),
    Check(14, BIAS, "repeatability", "0.225140924", lambda: by_range_of_readings().deviation, "0.0000000005", "read"),
    Check(14, BIAS, "uncertainty of the bias", "0.05813", lambda: by_range_of_readings().standard_error, "0.000005", "read"),
    Check(14, BIAS, "t", "0.1153", lambda: by_range_of_readings().t, "0.0007", "read; the page divides figures it has rounded"),
    Check(14, LINEARITY, "intercept and slope", "0.737 -0.132",
          lambda: [linear().line.intercept, linear().line.slope], "0.0005", "read"),
    Check(14, LINEARITY, "share explained, percent", "71.43", lambda: 100 * linear().line.r_squared, "0.005", "read"),
    Check(14, LINEARITY, "scatter about the line", "0.240", lambda: linear().line.deviation, "0.0005", "read"),
    Check(14, LINEARITY, "standard errors of intercept and slope", "0.0725 0.0109",
          lambda: [linear().line.intercept_error, linear().line.slope_error], "0.00005", "read"),
    Check(14, LINEARITY, "intercept, 95 % interval", "0.591 0.882", lambda: bounds(bias_at(linear(), 0)), "0.0005", "read"),
    Check(14, LINEARITY, "slope, 95 % interval", "-0.154 -0.110", lambda: bounds(slope_interval(linear().line)), "0.0005",
          "read"),
    Check(14, LINEARITY, "t of intercept and slope", "10.16 -12.04",
          lambda: [linear().t_of_intercept, linear().t_of_slope], "0.005", "read"),
    Check(14, LINEARITY, "average bias, and at each part", "-0.0533 0.492 0.125 0.0250 -0.292 -0.617",
          lambda: [linear().average_bias, *(each for _, each in linear().biases)], "0.0005", "read"),
    Check(14, LINEARITY, "percent linearity", "13.17", lambda: percent_linearity(linear()), "0.005", "read"),
    Check(14, STRD.format("SiRstv"), "sums of squares between and within 5 instruments", "0.0511462616 0.216636560",
          lambda: [instruments("resistances.csv", "resistance").between.squares,
                   instruments("resistances.csv", "resistance").within.squares], note="read"),
    Check(14, STRD.format("SiRstv"), "F", "1.18046237440255", lambda: instruments("resistances.csv", "resistance").f,
          "0.000000000000005", "read"),
    Check(14, STRD.format("SiRstv"), "residual standard deviation", "0.104076068334656",
          lambda: instruments("resistances.csv", "resistance").deviation, "0.0000000000000005", "read"),
    Check(14, STRD.format("AtmWtAg"), "F", "15.9467335677930", lambda: instruments("atomic_weights.csv", "weight").f,
          "0.00000000000005", "read"),
    Check(14, STRD.format("AtmWtAg"), "residual standard deviation", "0.0000151048314446410",
          lambda: instruments("atomic_weights.csv", "weight").deviation, "5e-20", "read"),
    Check(14, STRD.format("Norris"), "intercept", "-0.262323073774029", lambda: calibration().intercept, "0.0000000000000005",
          "read"),
    Check(14, STRD.format("Norris"), "slope", "1.00211681802045", lambda: calibration().slope, "0.000000000000005", "read"),
    Check(14, STRD.format("Norris"), "standard errors of intercept and slope", "0.232818234301152 0.000429796848199937",
          lambda: [calibration().intercept_error, calibration().slope_error], "0.000000000000001", "read"),
    Check(14, STRD.format("Norris"), "residual standard deviation", "0.884796396144373", lambda: calibration().deviation,
          "0.0000000000000005", "read"),
    Check(14, RINGS, "grand mean, mean range", "74.001176 0.02276",
          lambda: [averages_and_ranges(trial()).location.centre, averages_and_ranges(trial()).spread.centre], "1e-12",
          "read; computed with R and Python"),
    Check(14, RINGS, "limits of the averages", "73.988048 74.014304",
          lambda: [averages_and_ranges(trial()).location.lower, averages_and_ranges(trial()).location.upper], "0.0000005",
          "computed with qcc's code, which takes d2 as 2.326"),
    Check(14, RINGS, "upper limit of the ranges", "0.04813", lambda: averages_and_ranges(trial()).spread.upper, "0.000005",
          "computed with qcc's code; the textbook's D4 of 2.115 gives 0.04814"),
    Check(14, RINGS, "mean standard deviation, upper limit", "0.009240036602 0.01930241677",
          lambda: [averages_and_deviations(trial()).spread.centre, averages_and_deviations(trial()).spread.upper], "5e-12",
          "computed with qcc's code"),
    Check(14, RINGS, "samples outside the limits of the averages", "37, 38, 39", samples_out, note="computed with qcc's code"),
    Check(14, f"{RINGS}, capability", "Cp, 95 % interval", "1.703281 1.491411 1.914826",
          lambda: [rings_capability().width, *bounds(capable.width_interval(rings_capability()))], "0.0000005",
          "computed with qcc's code, limits 73.95 and 74.05"),
    Check(14, f"{RINGS}, capability", "lower, upper, nearest side", "1.743342 1.663219 1.663219",
          lambda: [rings_capability().lower, rings_capability().upper, rings_capability().nearest], "0.0000005",
          "computed with qcc's code"),
    Check(14, f"{RINGS}, capability", "Cpm about 74", "1.691111",
          lambda: capable.about_target(Decimal("74.001176"), Decimal("0.02276") / Decimal("2.326"), Decimal("73.95"),
                                       Decimal("74.05"), 74), "0.0000005", "computed with qcc's code"),
    Check(14, CONSTANTS, "d2 of 2 to 10", "1.128 1.693 2.059 2.326 2.534 2.704 2.847 2.970 3.078",
          lambda: constants("d2", tuple(range(2, 11))), "0.0005", "from memory"),
    Check(14, CONSTANTS, "d3 of 2 to 10", "0.8525 0.8884 0.8798 0.8641 0.8480 0.8332 0.8198 0.8078 0.7971",
          lambda: constants("d3", tuple(range(2, 11))), "0.00005", "from memory"),
    Check(14, CONSTANTS, "c4 of 2 to 10", "0.7979 0.8862 0.9213 0.9400 0.9515 0.9594 0.9650 0.9693 0.9727",
          lambda: constants("c4", tuple(range(2, 11))), "0.00005", "from memory"),
    Check(14, CONSTANTS, "A2 of 2 to 10", "1.880 1.023 0.729 0.577 0.483 0.419 0.373 0.337 0.308",
          lambda: constants("a2", tuple(range(2, 11))), "0.0005", "from memory"),
    Check(14, CONSTANTS, "D4 of 2 to 10", "3.267 2.575 2.282 2.114 2.004 1.924 1.864 1.816 1.777",
          lambda: constants("upper_range", tuple(range(2, 11))), "0.001", "from memory; some tables print 2.115 for 5"),
    Check(14, CONSTANTS, "D3 of 6 to 10", "0 0.076 0.136 0.184 0.223",
          lambda: constants("lower_range", tuple(range(6, 11))), "0.0005", "from memory"),
    Check(14, FLOW, "mean and limits", "50.81 45.8159 55.8041",
          lambda: [flow().location.centre, flow().location.lower, flow().location.upper], "0.002",
          "from memory; the page takes d2 as 1.128"),
    Check(14, FLOW, "mean moving range", "1.8778", lambda: flow().spread.centre, "0.00005", "from memory"),
    Check(14, HANDBOOK_CAPABILITY, "Cp, lower, upper, nearest", "1.0 1.3333 0.6667 0.6667",
          lambda: [capable.capability(16, 2, 49, 8, 20).width, capable.capability(16, 2, 49, 8, 20).lower,
                   capable.capability(16, 2, 49, 8, 20).upper, capable.capability(16, 2, 49, 8, 20).nearest], "0.00005",
          "from memory"),
]  # fmt: skip
