"""Probability of conformity of one measured value, from its standard uncertainty."""

from typing import SupportsFloat

from measurements.metrology.conformity import conformity
from measurements.metrology.errors import BadLimits, NothingGiven
from measurements.metrology.figures import real, real_positive


def conformance_probability(
    estimate: SupportsFloat, standard: SupportsFloat, low: SupportsFloat | None, high: SupportsFloat | None
) -> float:
    """Probability that the true value lies within limits, either of which may be missing.

    Units: one unit throughout; a probability. Raises: NothingGiven without a limit, BadLimits for reversed ones, BadFigure for an
    uncertainty of zero and below. Source: JCGM 106, 7.2 to 7.4.
    """
    value, deviation = real(estimate, "the estimate"), real_positive(standard, "the standard uncertainty")
    least, greatest = (None if limit is None else real(limit, "a limit") for limit in (low, high))
    if least is None and greatest is None:
        raise NothingGiven("No limit is given: conformity is to one.")
    if least is not None and greatest is not None and least > greatest:
        raise BadLimits("The limits are reversed: check them against the page.")
    return conformity(value, least, greatest, deviation)
