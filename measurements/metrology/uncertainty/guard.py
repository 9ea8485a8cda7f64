"""Guard bands: how far inside a limit a reading must lie before it counts as within."""

from dataclasses import dataclass
from fractions import Fraction

from scipy.optimize import brentq
from scipy.special import ndtr, ndtri

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NoAnswer
from measurements.metrology.figures import Exact, exact, exact_not_negative, ordered, real, real_positive


@dataclass(frozen=True)
class Acceptance(Checked, in_order=(("low", "high"),)):
    """Acceptance limits in the unit of the tolerance limits; a side without a limit is None."""

    low: Fraction | None
    high: Fraction | None

    def holds(self, value: Exact) -> bool:
        """Whether a value, in the unit of the limits, may be accepted; on the limit counts as within."""
        given = exact(value)
        return (self.low is None or given >= self.low) and (self.high is None or given <= self.high)


def simple_acceptance(low: Exact | None, high: Exact | None) -> Acceptance:
    """Accept up to the tolerance limits themselves.

    Units: the unit of the limits. Raises: BadLimits, BadFigure. Source: JCGM 106, 8.2 (from memory).
    """
    return Acceptance(*ordered(low, high))


def guarded_acceptance(low: Exact | None, high: Exact | None, guard: Exact) -> Acceptance:
    """Accept only inside the limits by a guard band (stringent acceptance).

    Units: the unit of the limits. Raises: NoAnswer when the guard bands leave no room, BadLimits, BadFigure.
    Source: JCGM 106, 8.3.2 (from memory); ISO 14253-1 with guard = U (from memory).
    """
    least, greatest = ordered(low, high)
    width = exact_not_negative(guard, "the guard band")
    inside = (None if least is None else least + width, None if greatest is None else greatest - width)
    if least is not None and greatest is not None and 2 * width > greatest - least:
        raise NoAnswer("The guard bands leave no room between the limits: use a gauge with a smaller uncertainty.")
    return Acceptance(*inside)


def guard_from_share(expanded: Exact, share: Exact) -> Fraction:
    """Guard band as a share r of the expanded uncertainty U.

    Units: the unit of U. Raises: BadFigure for negative figures. Source: JCGM 106, 8.3.2 (from memory).
    """
    return exact_not_negative(share, "the share") * exact_not_negative(expanded, "the expanded uncertainty")


def guard_for_risk(standard: float, most_false_accept: float) -> float:
    """One-sided guard band that keeps the chance of accepting a bad part, at the acceptance limit, to a maximum.

    Units: the unit of the standard uncertainty; a probability. Raises: BadFigure outside 0 to 0.5. Source: JCGM 106, 8.3 (from
    memory).
    """
    return float(-ndtri(_risk(most_false_accept)) * real_positive(standard, "the standard uncertainty"))


def two_sided_guard_for_risk(low: Exact, high: Exact, standard: float, most_false_accept: float) -> float:
    """Guard band, the same on both sides, that keeps that chance to a maximum where both limits can be broken.

    Units: the unit of the limits. Raises: NoAnswer when even the middle is not safe enough, BadLimits, BadFigure.
    Source: JCGM 106, 8.3 (from memory), solved numerically.
    """
    ordered(low, high)
    half, spread, risk = (float(high) - float(low)) / 2, real_positive(standard), _risk(most_false_accept)

    def excess(guard: float) -> float:
        return float(ndtr(-guard / spread) + ndtr(-(2 * half - guard) / spread) - risk)

    if excess(half) > 0:
        raise NoAnswer("Even a reading in the middle is not safe enough: use a gauge with a smaller uncertainty.")
    return float(brentq(excess, 0.0, half, xtol=1e-15 * max(half, 1.0)))


def _risk(value: float) -> float:
    risk = real(value, "the risk")
    if not 0 < risk <= 0.5:
        raise BadFigure("The greatest false-accept risk lies above 0 and up to 0.5, such as 0.02.")
    return risk
