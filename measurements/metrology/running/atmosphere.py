"""The standard atmosphere up to 32 km: temperature, pressure and density at a height, and the height of a pressure."""

import math
from dataclasses import dataclass
from typing import SupportsFloat

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import real, real_positive

GRAVITY = 9.80665  # m/s2
GAS_CONSTANT = 287.05287  # J/(kg K), dry air
EARTH_RADIUS_M = 6_356_766.0
LOWEST_M = -5000.0
HIGHEST_M = 32_000.0


@dataclass(frozen=True)
class StandardAir(Checked, positive=("temperature_k", "pressure_pa")):
    """Air of the standard atmosphere: K, Pa, kg/m3."""

    temperature_k: float
    pressure_pa: float

    @property
    def density(self) -> float:
        """kg/m3, of dry air as a perfect gas."""
        return self.pressure_pa / (GAS_CONSTANT * self.temperature_k)


@dataclass(frozen=True)
class Layer(Checked):
    """One layer: geopotential height of its base in m, temperature and pressure there, K per m above it."""

    base_m: float
    base: StandardAir
    lapse: float

    def air(self, height_m: float) -> StandardAir:
        """The air at a geopotential height in m, taken as if the layer went on for ever."""
        rise = real(height_m, "the height") - self.base_m
        cold, pressure = self.base.temperature_k, self.base.pressure_pa
        if not self.lapse:
            return StandardAir(cold, pressure * math.exp(-GRAVITY * rise / (GAS_CONSTANT * cold)))
        temperature = cold + self.lapse * rise
        return StandardAir(temperature, pressure * (temperature / cold) ** (-GRAVITY / (GAS_CONSTANT * self.lapse)))

    def height(self, pressure_pa: float) -> float:
        """The geopotential height in m at which the layer has a pressure in Pa."""
        cold, share = self.base.temperature_k, real_positive(pressure_pa, "the pressure") / self.base.pressure_pa
        if not self.lapse:
            return self.base_m - math.log(share) * GAS_CONSTANT * cold / GRAVITY
        warmer = math.pow(share, -GAS_CONSTANT * self.lapse / GRAVITY)
        return self.base_m + cold / self.lapse * (warmer - 1)


SEA_LEVEL = StandardAir(288.15, 101_325.0)
LOW = Layer(0.0, SEA_LEVEL, -0.0065)
MIDDLE = Layer(11_000.0, LOW.air(11_000.0), 0.0)
HIGH = Layer(20_000.0, MIDDLE.air(20_000.0), 0.001)
LAYERS = (LOW, MIDDLE, HIGH)


def geopotential(geometric_m: SupportsFloat) -> float:
    """Geopotential height of a height above sea level as a tape would measure it.

    Units: m. Raises: BadFigure; NoAnswer outside -5 to 32 km. Source: ISO 2533, 2.3.
    """
    height = real(geometric_m, "the height")
    if not LOWEST_M <= height <= 1.01 * HIGHEST_M:
        raise NoAnswer(f"The standard atmosphere here runs from -5 to 32 km, not to {height:g} m: check the height and its unit.")
    return EARTH_RADIUS_M * height / (EARTH_RADIUS_M + height)


def standard_air(geopotential_m: SupportsFloat) -> StandardAir:
    """The standard air at a geopotential height, which is what an altimeter set to 1013.25 hPa shows.

    Units: m in; K, Pa and kg/m3 out. Raises: BadFigure; NoAnswer outside -5 to 32 km. Source: ISO 2533, tables 4 and 5.
    """
    height = real(geopotential_m, "the height")
    if not LOWEST_M <= height <= HIGHEST_M:
        raise NoAnswer(f"The standard atmosphere here runs from -5 to 32 km, not to {height:g} m: check the height and its unit.")
    return max((layer for layer in LAYERS if layer.base_m <= height), key=lambda layer: layer.base_m, default=LOW).air(height)


def standard_air_at_geometric(geometric_m: SupportsFloat) -> StandardAir:
    """The standard air at a height as a tape would measure it.

    Units: m in; K, Pa and kg/m3 out. Raises: as `geopotential` and `standard_air`. Source: ISO 2533.
    """
    return standard_air(geopotential(geometric_m))


def pressure_altitude(pressure_pa: SupportsFloat) -> float:
    """The geopotential height at which the standard atmosphere has a pressure.

    Units: Pa in, m out. Raises: BadFigure for zero and below; NoAnswer outside -5 to 32 km. Source: ISO 2533.
    """
    pressure = real_positive(pressure_pa, "the pressure")
    if not standard_air(HIGHEST_M).pressure_pa <= pressure <= standard_air(LOWEST_M).pressure_pa:
        raise NoAnswer(f"No height from -5 to 32 km has a pressure of {pressure:g} Pa: check the figure and its unit.")
    return next(layer for layer in reversed(LAYERS) if pressure <= layer.base.pressure_pa or layer is LOW).height(pressure)
