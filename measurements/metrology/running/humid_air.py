"""Water vapour in the air: how much it can hold, how much it holds, and what that does to its density."""

import math
from decimal import Decimal
from typing import SupportsFloat

from measurements.metrology.errors import BadFigure, NoAnswer
from measurements.metrology.figures import real, real_not_negative, real_positive
from measurements.metrology.running.atmosphere import GAS_CONSTANT
from measurements.metrology.units import ratio

VAPOUR_GAS_CONSTANT = 461.526  # J/(kg K), water
PA_PER_IN_HG = float(ratio("inHg", "Pa"))
# Coefficients n1 to n10 of the saturation line, IAPWS Industrial Formulation 1997, region 4 (from memory; tests hold them
# against the three points the release prints for program verification).
LINE = (
    1167.0521452767,
    -724213.16703206,
    -17.073846940092,
    12020.82470247,
    -3232555.0322333,
    14.91510861353,
    -4823.2657361591,
    405113.40542057,
    -0.23855557567849,
    650.17534844798,
)
COLDEST_K, HOTTEST_K = 273.15, 647.096


def saturation_pressure(air_c: SupportsFloat) -> float:
    """Pressure of water vapour in air that can hold no more.

    Units: °C in, Pa out. Raises: BadFigure; NoAnswer below 0 °C (over ice the line is another) and above 373.946 °C.
    Source: IAPWS-IF97, region 4.
    """
    kelvin = real(air_c, "the air temperature") + 273.15
    if not COLDEST_K <= kelvin <= HOTTEST_K:
        raise NoAnswer(f"The vapour line runs from 0 to 373.9 °C, not to {kelvin - 273.15:g} °C: check the figure and its unit.")
    theta = kelvin + LINE[8] / (kelvin - LINE[9])
    a = theta**2 + LINE[0] * theta + LINE[1]
    b = LINE[2] * theta**2 + LINE[3] * theta + LINE[4]
    c = LINE[5] * theta**2 + LINE[6] * theta + LINE[7]
    return float(1e6 * (2 * c / (-b + math.sqrt(b * b - 4 * a * c))) ** 4)


def vapour_pressure(relative_humidity_percent: SupportsFloat, air_c: SupportsFloat) -> float:
    """Pressure of the water vapour that the air holds.

    Units: percent and °C in, Pa out. Raises: BadFigure outside 0 to 100 percent; NoAnswer as `saturation_pressure`.
    Source: definition of relative humidity; IAPWS-IF97.
    """
    percent = real_not_negative(relative_humidity_percent, "the relative humidity")
    if percent > 100:
        raise BadFigure(f"The relative humidity is {percent:g} percent: it runs from 0 to 100, read it again.")
    return percent / 100 * saturation_pressure(air_c)


def vapour_in_hg(relative_humidity_percent: SupportsFloat, air_f: SupportsFloat) -> Decimal:
    """Pressure of the water vapour that the air holds, as a power correction takes it: to four decimals, half to even.

    Units: percent and °F in, inHg (conventional) out. Raises: as `vapour_pressure`. Source: as `vapour_pressure`.
    """
    celsius = (real(air_f, "the air temperature") - 32) / 1.8
    return Decimal(f"{vapour_pressure(relative_humidity_percent, celsius) / PA_PER_IN_HG:.4f}")


def density(pressure_pa: SupportsFloat, air_c: SupportsFloat, relative_humidity_percent: SupportsFloat) -> float:
    """Density of humid air as a mixture of two perfect gases.

    Units: Pa, °C and percent in, kg/m3 out. Raises: as `vapour_pressure`; BadFigure when the vapour alone would exceed the
    pressure. Source: partial pressures of perfect gases; agrees with real-gas libraries to about 0.1 percent.
    """
    pressure = real_positive(pressure_pa, "the pressure")
    vapour = vapour_pressure(relative_humidity_percent, air_c)
    if vapour >= pressure:
        raise BadFigure("The vapour alone would exceed the pressure read: check the pressure and its unit.")
    kelvin = real(air_c, "the air temperature") + 273.15
    return (pressure - vapour) / (GAS_CONSTANT * kelvin) + vapour / (VAPOUR_GAS_CONSTANT * kelvin)
