"""Control chart constants, from the normal distribution by integration rather than from a table."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammaln, ndtr

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import whole_number

MOST = 100
MOST_RANGES = 1_000_000
REACH = 9.0  # standard deviations: beyond, nothing that a double can hold
NODES = 160


@dataclass(frozen=True)
class Constants(Checked, positive=("size", "d2", "d3", "c4")):
    """Constants of a subgroup of so many: mean and spread of the range in sigma (d2, d3), mean of s in sigma (c4)."""

    size: int
    d2: float
    d3: float
    c4: float

    @property
    def a2(self) -> float:
        """From the mean range to three sigma of an average."""
        return 3 / (self.d2 * math.sqrt(self.size))

    @property
    def a3(self) -> float:
        """From the mean standard deviation to three sigma of an average."""
        return 3 / (self.c4 * math.sqrt(self.size))

    @property
    def lower_range(self) -> float:
        """D3: from the mean range to its lower limit."""
        return max(0.0, 1 - 3 * self.d3 / self.d2)

    @property
    def upper_range(self) -> float:
        """D4: from the mean range to its upper limit."""
        return 1 + 3 * self.d3 / self.d2

    @property
    def lower_deviation(self) -> float:
        """B3: from the mean standard deviation to its lower limit."""
        return max(0.0, 1 - 3 * math.sqrt(1 - self.c4**2) / self.c4)

    @property
    def upper_deviation(self) -> float:
        """B4: from the mean standard deviation to its upper limit."""
        return 1 + 3 * math.sqrt(1 - self.c4**2) / self.c4


@lru_cache(maxsize=MOST)
def control_constants(size: int) -> Constants:
    """The constants of subgroups of a size.

    Units: multiples of sigma. Raises: BadFigure for a size that is not whole or lies outside 2 to 100.
    Source: mean and variance of the range of normal values, integrated (Tippett 1925, from memory); c4 by the gamma function.
    """
    if isinstance(size, bool) or not isinstance(size, int) or not 2 <= size <= MOST:
        raise BadFigure(f"A subgroup holds from 2 to {MOST} readings.")
    nodes, weights = _nodes()
    x, wide = REACH * nodes, REACH * weights
    p = ndtr(x)
    mean = float(wide @ (1 - p**size - (1 - p) ** size))
    # E(range squared) is twice the integral, over x below y, of the chance that some value lies at or below x and some above y.
    low = (x[:, None] - REACH) / 2 + (x[:, None] + REACH) / 2 * nodes[None, :]
    below, upto = ndtr(low), p[:, None]
    chance = 1 - upto**size - (1 - below) ** size + np.clip(upto - below, 0, None) ** size
    second = 2 * float(wide @ ((chance @ weights) * (x + REACH) / 2))
    c4 = math.sqrt(2 / (size - 1)) * math.exp(gammaln(size / 2) - gammaln((size - 1) / 2))
    return Constants(size, mean, math.sqrt(second - mean * mean), c4)


def mean_range_divisor(size: int, ranges: int) -> float:
    """d2*: what the mean of a few ranges is divided by to give sigma; d2 itself where there are many.

    Units: none. Raises: BadFigure as `control_constants`, and for no range.
    Source: d2* squared is d2 squared plus d3 squared over the number of ranges (Duncan, from memory).
    """
    found = control_constants(size)
    whole_number(ranges, "The number of ranges", 1, MOST_RANGES)
    return math.sqrt(found.d2**2 + found.d3**2 / ranges)


@lru_cache(maxsize=1)
def _nodes() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    nodes, weights = np.polynomial.legendre.leggauss(NODES)
    return nodes, weights
