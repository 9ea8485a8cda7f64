"""Power referred to a standard day by a named correction, whose constants are data and travel with every result.

The corrections disagree by several percent on the same day, so a figure without the name of its correction means nothing.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal, localcontext
from fractions import Fraction
from typing import Literal

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive
from measurements.metrology.units import ratio

FACTOR_STEP = Decimal("0.00000001")
DIGITS = 40
MOST_APART = Fraction(10)


@dataclass(frozen=True, kw_only=True)
class Correction(Checked, positive=("standard_dry_pressure", "standard_temperature")):
    """A correction of the form slope * (P / dry)^p * (T / standard)^q + offset.

    dry is barometer less vapour in `pressure_unit`; T is the air temperature in `degrees` plus `zero`.
    """

    name: str
    formula: str
    source: str
    pressure_unit: Literal["inHg", "kPa"]
    degrees: Literal["F", "C"]
    standard_dry_pressure: Decimal
    zero: Decimal
    standard_temperature: Decimal
    pressure_power: Decimal
    temperature_power: Decimal
    slope: Decimal = Decimal(1)
    offset: Decimal = Decimal(0)

    @property
    def constants(self) -> Mapping[str, Decimal]:
        """Every number of the formula by its name, pressures in `pressure_unit`, temperatures in `degrees` above `zero`."""
        return {
            "standard dry pressure": self.standard_dry_pressure,
            "zero of the temperature scale": self.zero,
            "standard temperature": self.standard_temperature,
            "power of the pressure ratio": self.pressure_power,
            "power of the temperature ratio": self.temperature_power,
            "slope": self.slope,
            "offset": self.offset,
        }


@dataclass(frozen=True)
class Corrected(Checked):
    """Which correction, its formula and constants, the factor to eight decimals, and power times that factor, in hp."""

    name: str
    formula: str
    constants: Mapping[str, Decimal]
    factor: Decimal
    power: Fraction


def _classic(name: str, standard: str) -> Correction:
    return Correction(
        name=name,
        formula=f"CF = (29.92 / (B - e)) * sqrt((460 + t) / {standard}); B, e in inHg, t in °F",
        source="read in public engineering discussion; no standard known",
        pressure_unit="inHg",
        degrees="F",
        standard_dry_pressure=Decimal("29.92"),
        zero=Decimal(460),
        standard_temperature=Decimal(standard),
        pressure_power=Decimal(1),
        temperature_power=Decimal("0.5"),
    )


CORRECTIONS: dict[str, Correction] = {
    correction.name: correction
    for correction in (
        _classic("classic 460/520", "520"),
        _classic("classic 460/519", "519"),
        Correction(
            name="SAE J1349 June 1990",
            formula="CF = 1.18 * (29.235 / (B - e)) * sqrt((460 + t) / 537) - 0.18; B, e in inHg, t in °F",
            source="SAE J1349, June 1990, as quoted in public discussion; holds for a mechanical efficiency of 85 percent",
            pressure_unit="inHg",
            degrees="F",
            standard_dry_pressure=Decimal("29.235"),
            zero=Decimal(460),
            standard_temperature=Decimal(537),
            pressure_power=Decimal(1),
            temperature_power=Decimal("0.5"),
            slope=Decimal("1.18"),
            offset=Decimal("-0.18"),
        ),
        Correction(
            name="ISO 1585 spark ignition",
            formula="CF = (99 / (B - e))^1.2 * ((273 + t) / 298)^0.6; B, e in kPa, t in °C",
            source="ISO 1585, spark ignition, from memory",
            pressure_unit="kPa",
            degrees="C",
            standard_dry_pressure=Decimal(99),
            zero=Decimal(273),
            standard_temperature=Decimal(298),
            pressure_power=Decimal("1.2"),
            temperature_power=Decimal("0.6"),
        ),
    )
}


def factor(pressure_in_hg: Exact, vapour_in_hg: Exact, air_f: Exact, correction: Correction) -> Decimal:
    """What observed power is multiplied by, to eight decimals, half to even: the same digits on every machine.

    Units: inHg (barometer and water vapour) and °F, whatever the correction's own. Raises: BadFigure, also when the vapour
    leaves no dry air or the day is more than ten times from the standard one. Source: that of the correction.
    """
    dry = exact_positive(pressure_in_hg, "the barometer") - exact_not_negative(vapour_in_hg, "the vapour pressure")
    if dry <= 0:
        raise BadFigure("The vapour pressure leaves no dry air: check the barometer and its unit.")
    dry *= ratio("inHg", correction.pressure_unit)
    air = exact(air_f, "the air temperature")
    air = air if correction.degrees == "F" else (air - 32) * 5 / 9
    absolute = air + exact(correction.zero, "the zero of the temperature scale")
    pressure_ratio = exact_positive(correction.standard_dry_pressure, "the standard pressure") / dry
    temperature_ratio = absolute / exact_positive(correction.standard_temperature, "the standard temperature")
    if not all(1 / MOST_APART <= share <= MOST_APART for share in (pressure_ratio, temperature_ratio)):
        raise BadFigure("No day is that far from the standard one: check barometer and temperature and their units.")
    with localcontext(prec=DIGITS):
        powers = _power(pressure_ratio, correction.pressure_power) * _power(temperature_ratio, correction.temperature_power)
        return (correction.slope * powers + correction.offset).quantize(FACTOR_STEP, ROUND_HALF_EVEN)


def correct(power_hp: Exact, pressure_in_hg: Exact, vapour_in_hg: Exact, air_f: Exact, correction: Correction) -> Corrected:
    """Observed power referred to the correction's standard day.

    Units: hp (or any unit of power: the answer has the same), inHg, inHg, °F. Raises: BadFigure for a negative power and as
    `factor`. Source: that of the correction, carried in the result.
    """
    observed = exact_not_negative(power_hp, "the power")
    multiplier = factor(pressure_in_hg, vapour_in_hg, air_f, correction)
    return Corrected(correction.name, correction.formula, correction.constants, multiplier, observed * Fraction(multiplier))


def _power(base: Fraction, exponent: Decimal) -> Decimal:
    return (Decimal(base.numerator) / Decimal(base.denominator)) ** exponent
