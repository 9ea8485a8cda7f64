"""Published figures on wear: rate, remaining life, regression with its intervals."""

from decimal import Decimal

from measurements.metrology.regression import height_interval, line, prediction_interval
from measurements.metrology.wear.forecast import interval_of, wear_rate
from measurements.metrology.wear.history import Visit, since_rework
from measurements.metrology.wear.rule import hours_left, may_go_back, rate_of_wear
from tests.published.check import Check
from tests.published.gauge_studies import bounds, decimals
from tests.published.limit_tables import WEAR_LIMITS

# What ages in store loses strength as a surface loses metal: strength in psi at an age in weeks, twenty batches.
PROPELLANT = "Montgomery, Peck and Vining, Introduction to Linear Regression Analysis, examples 2.1 to 2.7 (table 2.1)"
AGE = "15.50 23.75 8.00 17.00 5.50 19.00 24.00 2.50 7.50 11.00 13.00 3.75 25.00 9.75 22.00 18.00 6.00 12.50 2.00 21.50"
STRENGTH = (
    "2158.70 1678.15 2316.00 2061.30 2207.50 1708.30 1784.70 2575.00 2357.90 2256.70 2165.20 2399.55 1779.80 2336.75 1765.30 "
    "2053.50 2414.40 2200.50 2654.20 1753.70"
)
# Speed in mile/h and stopping distance in ft of fifty cars (from memory; what R prints of them read).
STOPPING = "R data set cars, predict(lm(dist ~ speed))"
SPEED = (
    "4 4 7 7 8 9 10 10 10 11 11 12 12 12 12 13 13 13 13 14 14 14 14 15 15 15 16 16 17 17 17 18 18 18 18 19 19 19 20 20 20 20 20 "
    "22 23 24 24 24 24 25"
)
DISTANCE = (
    "2 10 4 22 16 10 18 26 34 17 28 14 20 24 28 26 34 34 46 26 36 60 80 20 26 54 32 40 32 40 50 42 56 76 84 36 46 68 32 48 52 56 "
    "64 66 54 70 92 93 120 85"
)
THICKNESS = "API 510, 10th edition, 7.1.1 and 7.2.1, as a calculation sheet works it"
PIPE = "API 570, corrosion rate and remaining life, as a second calculation sheet works it"
RULE = "TM 55-1905-220-14-4, 3-6 (5), on the limits of TM 9-2815-225-34P, appendix F"


def propellant():
    return line(decimals(AGE), decimals(STRENGTH))


def aged():
    points = sorted(zip(decimals(AGE), decimals(STRENGTH), strict=True))
    return since_rework([Visit(age, strength) for age, strength in points])


def stopping():
    return line(decimals(SPEED), decimals(DISTANCE))


def two(before: str, after: str, years: str):
    return since_rework([Visit(0, Decimal(before)), Visit(Decimal(years), Decimal(after))])


def goes_back(worn: str, until: int) -> str:
    """A main bearing bore, new at most 4.7500, worn so much in 1000 hours; 4.7505 is the greatest."""
    _, new, greatest = (Decimal(limit) for limit in WEAR_LIMITS["main bearing bore"])
    return "yes" if may_go_back(new + Decimal(worn), greatest, Decimal(worn), 1000, until) else "no"


CHECKS = [
    Check(13, PROPELLANT, "rate of 20 visits", "-37.15", lambda: wear_rate(aged()).value, "0.005", "read"),
    Check(13, PROPELLANT, "standard error of the rate", "2.89", lambda: wear_rate(aged()).error, "0.005", "from memory"),
    Check(13, PROPELLANT, "rate, 95 % interval", "-43.22 -31.08", lambda: bounds(interval_of(wear_rate(aged()))), "0.01",
          "from memory; the page multiplies rounded figures"),
    Check(13, PROPELLANT, "value at the start", "2627.82", lambda: propellant().intercept, "0.005", "read"),
    Check(13, PROPELLANT, "mean and spread of the ages", "13.3625 1106.56",
          lambda: [propellant().mean_x, propellant().spread_x], "0.005", "read"),
    Check(13, PROPELLANT, "residual sum of squares, mean square, deviation", "166255 9236 96.11",
          lambda: [propellant().residual_squares, propellant().deviation ** 2, propellant().deviation], "0.5",
          "from memory: the computer's table; by hand the page gets 9244.59 with a slope rounded to two places"),
    Check(13, PROPELLANT, "next reading at 10 weeks, 95 % interval", "2048.32 2464.32",
          lambda: bounds(prediction_interval(propellant(), 10)), "0.14", "read; by hand, with 9244.59 for 9236.38"),
    Check(13, PROPELLANT, "line at the mean age, 95 % interval", "2086.230 2176.571",
          lambda: bounds(height_interval(propellant(), Decimal("13.3625"))), "0.07", "from memory; by hand, as above"),
    Check(13, STOPPING, "slope and intercept", "3.932 -17.579", lambda: [stopping().slope, stopping().intercept], "0.0005",
          "read"),
    Check(13, STOPPING, "at 12, 19 and 24", "29.6 57.1 76.8", lambda: [stopping().at(speed) for speed in (12, 19, 24)], "0.05",
          "read"),
    Check(13, STOPPING, "95 % interval of the line at 19", "51.83 62.44", lambda: bounds(height_interval(stopping(), 19)),
          "0.005", "read"),
    Check(13, STOPPING, "95 % interval of the line at 12", "24.4 34.8", lambda: bounds(height_interval(stopping(), 12)), "0.05",
          "read"),
    Check(13, STOPPING, "95 % interval of the line at 24", "68.4 85.2", lambda: bounds(height_interval(stopping(), 24)), "0.05",
          "read"),
    Check(13, STOPPING, "95 % interval of the next stop from 12", "-1.749529 60.96915",
          lambda: bounds(prediction_interval(stopping(), 12)), "0.000005", "from memory"),
    Check(13, THICKNESS, "long-term rate of 0.413 to 0.352 in 5 years", "-0.012",
          lambda: wear_rate(two("0.413", "0.352", "5")).value, "0.0005", "read"),
    Check(13, THICKNESS, "short-term rate of 0.5 to 0.4 in 1 year", "-0.100", lambda: wear_rate(two("0.5", "0.4", "1")).value,
          note="read"),
    Check(13, THICKNESS, "years from 0.4 to 0.3 at 0.100", "1.00",
          lambda: hours_left(Decimal("0.4"), Decimal("0.3"), Decimal("-0.100")), note="read"),
    Check(13, PIPE, "rate of 7.8 to 3.24 in 15 years", "0.304", lambda: rate_of_wear(Decimal("7.8") - Decimal("3.24"), 15),
          note="read"),
    Check(13, PIPE, "years from 3.24 to 0.37 at 0.34", "8.441",
          lambda: hours_left(Decimal("3.24"), Decimal("0.37"), Decimal("-0.34")), "0.0005", "read"),
    Check(13, RULE, "a bearing bore 0.0002 over new after 1000 hours, 1500 to go", "yes", lambda: goes_back("0.0002", 1500),
          note="rule and limits read, hours chosen to lie on the limit"),
    Check(13, RULE, "the same with 1501 to go", "no", lambda: goes_back("0.0002", 1501), note="as above"),
    Check(13, RULE, "a liner worn 0.0010 in 1000 hours: hours until its wear limit", "3000",
          lambda: hours_left(Decimal("5.5020"), Decimal("5.5050"), rate_of_wear(Decimal("0.0010"), 1000)),
          note="rule and limits read, hours by arithmetic"),
]  # fmt: skip
