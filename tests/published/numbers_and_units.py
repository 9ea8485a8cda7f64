"""Group 1, units and numbers: definitions, rounding, significant digits."""

from decimal import Decimal
from functools import partial

from measurements.metrology.e29 import (
    absolute_method,
    rounded,
    rounded_to_digits,
    rounded_to_places,
    rounding_method,
    significant_digits,
)
from measurements.metrology.quantity import read_quantity
from measurements.metrology.temperature import temperature, temperature_difference
from measurements.metrology.units import converted, ratio
from tests.published.check import Check
from tests.published.limit_tables import E29_ROUNDING, EXACT_UNITS

SP811 = "NIST SP 811, appendix B.8"
SP811_TEMPERATURE = "NIST SP 811, appendix B.8, temperature"
INCH = "The international inch of 25.4 mm"
PINT = "Pint 0.25.3"
PROCEDURE = "ASTM E29, rounding procedure"
DIGITS = "ASTM E29-02, 3.1"
METHODS = "ASTM E29, absolute and rounding method"
MORE_UNITS = [("gal", "L", "3.785411784"), ("hp", "kW", "0.74569987158227022"), ("hp(metric)", "kW", "0.73549875")]
READ_INCHES = [("0.0005 in", "0.0127"), ("0.0015 in", "0.0381"), ("5.1265 in", "130.2131")]
BY_PINT = [
    ("psi", "kPa", "6.894757293168"),
    ("oz", "g", "28.349523125"),
    ("qt", "L", "0.946352946"),
    ("lb/(hp·h)", "g/(kW·h)", "608.2773878417"),
]
# Torques that a round trip through a displayed figure would move (computed in Decimal with the exact factor).
TORQUES = [("450", "50.84317306"), ("500", "56.49241451"), ("390", "44.06408332")]
TEMPERATURES = [("59", "°F", "K", "288.15"), ("59", "°F", "°C", "15"), ("212", "°F", "°C", "100"), ("-40", "°C", "°F", "-40")]


def methods() -> str:
    """2.51 against a greatest of 2.5: the absolute method refuses it, the rounding method to 0.1 does not."""
    return f"{absolute_method(Decimal('2.51'), None, Decimal('2.5'))} {rounding_method(Decimal('2.51'), None, Decimal('2.5'))}"


CHECKS = [
    *(
        Check(1, SP811, f"1 {unit} in {wanted}", expected, partial(ratio, unit, wanted), note="exact; read with three tools")
        for unit, wanted, expected in EXACT_UNITS + MORE_UNITS
    ),
    *(
        Check(1, SP811_TEMPERATURE, f"{value} {scale} in {wanted}", expected, partial(temperature, Decimal(value), scale, wanted))
        for value, scale, wanted, expected in TEMPERATURES
    ),
    Check(1, SP811_TEMPERATURE, "a rise of 9 °F in °C", "5", lambda: temperature_difference(9, "°F", "°C"), note="exact"),
    *(Check(1, INCH, f"{text} in mm", mm, partial(read_quantity(text).in_unit, "mm"), note="exact") for text, mm in READ_INCHES),
    *(
        Check(1, PINT, f"1 {unit} in {wanted}", expected, partial(ratio, unit, wanted), "1e-9", "computed with Pint")
        for unit, wanted, expected in BY_PINT
    ),
    Check(1, "CIPM and conventional inch of mercury, as three tools compute it", "1 atm in inHg", "29.92125558",
          lambda: ratio("atm", "inHg"), "0.000000005"),
    *(
        Check(1, "The exact factor, in Decimal", f"{value} lbf·in in N·m", expected,
              partial(converted, Decimal(value), "lbf·in", "N·m"), "0.000000005")
        for value, expected in TORQUES
    ),
    *(
        Check(1, PROCEDURE, f"{typed} to {places} decimals", expected, partial(rounded_to_places, Decimal(typed), places),
              note="rule from memory; computed with Python's decimal")
        for typed, places, expected in E29_ROUNDING[:6]
    ),
    Check(1, PROCEDURE, "1225 and 1275 to fifties", "1200 1300", lambda: [rounded(1225, 50), rounded(1275, 50)],
          note="rule from memory"),
    Check(1, PROCEDURE, "6.025 and 6.075 to 0.05", "6.00 6.10",
          lambda: [rounded(Decimal(each), Decimal("0.05")) for each in ("6.025", "6.075")], note="rule from memory"),
    Check(1, DIGITS, "significant digits of 1270. and 32.00", "4 4",
          lambda: [significant_digits("1270."), significant_digits("32.00")], note="read"),
    Check(1, DIGITS, "significant digits of 0.140", "3", lambda: significant_digits("0.140"),
          note="read: 0.140 MPa is reported to 0.001"),
    Check(1, DIGITS, "140 499 Pa to three digits", "140000", lambda: rounded_to_digits(140_499, 3),
          note="read: three digits of it are reported to 1000 Pa; the value is invented"),
    Check(1, METHODS, "2.51 against 2.5", "False True", methods, note="principle read; the figures are invented"),
]  # fmt: skip
