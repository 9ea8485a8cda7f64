"""Components combined: standard uncertainty, effective degrees of freedom, expanded uncertainty."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from scipy.stats import norm, t

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.figures import real, real_not_negative
from measurements.metrology.uncertainty.components import Component


@dataclass(frozen=True)
class Expanded(Checked, endless=("degrees",)):
    """Expanded uncertainty in the unit of the result, coverage factor, and the degrees of freedom used."""

    value: float
    coverage_factor: float
    degrees: float


def combined(components: Sequence[Component]) -> float:
    """Combined standard uncertainty of independent components.

    Units: the unit of the result. Shape: at least one component. Raises: NothingGiven, BadFigure. Source: JCGM 100, 5.1.2.
    """
    if not components:
        raise NothingGiven("The budget is empty: name at least one source of uncertainty.")
    return math.hypot(*(real_not_negative(component.contribution, component.name) for component in components))


def effective_degrees(components: Sequence[Component]) -> float:
    """Effective degrees of freedom by Welch and Satterthwaite; infinite where every component is well known.

    Units: none. Shape: at least one component. Raises: NothingGiven, BadFigure for degrees of zero and below.
    Source: JCGM 100, G.4.1.
    """
    total = combined(components)
    if any(component.degrees <= 0 or math.isnan(component.degrees) for component in components):
        raise BadFigure("Degrees of freedom are above zero: count the repeats again.")
    if total == 0:
        return math.inf
    spread = sum((component.contribution / total) ** 4 / component.degrees for component in components)
    return 1 / spread if spread else math.inf


def expanded(components: Sequence[Component], coverage: float = 0.95) -> Expanded:
    """Expanded uncertainty for a probability of coverage, with the degrees of freedom cut to the next lower whole number.

    Units: the unit of the result; coverage between 0 and 1. Shape: at least one component. Raises: NothingGiven,
    BadFigure. Source: JCGM 100, G.6.4.
    """
    share = real(coverage, "the coverage")
    if not 0 < share < 1:
        raise BadFigure("Coverage is a probability between 0 and 1, such as 0.95.")
    degrees = effective_degrees(components)
    degrees = degrees if math.isinf(degrees) else max(1.0, float(math.floor(degrees)))
    factor = float(norm.ppf((1 + share) / 2) if math.isinf(degrees) else t.ppf((1 + share) / 2, degrees))
    return Expanded(factor * combined(components), factor, degrees)


def second_order(first: float, terms: Sequence[float]) -> float:
    """Combined standard uncertainty with second-order terms, each given as its own standard uncertainty.

    Units: the unit of the result. Shape: any number of terms. Raises: BadFigure. Source: JCGM 100, H.1.7.
    """
    return math.hypot(real_not_negative(first), *(real_not_negative(term) for term in terms))
