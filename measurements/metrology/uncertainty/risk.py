"""Risks of a gauge on a characteristic: how often it passes a bad part, and how often it fails a good one."""

from dataclasses import dataclass

from scipy.integrate import quad
from scipy.special import ndtr, ndtri
from scipy.stats import norm

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, BadLimits
from measurements.metrology.figures import real, real_not_negative, real_positive

REACH = 9.0  # standard deviations: beyond, the normal density is below 1e-18


@dataclass(frozen=True)
class Risks(Checked):
    """Shares of all parts: bad ones that are accepted, good ones that are refused."""

    false_accept: float
    false_reject: float


def risks(process_mean: float, process_sd: float, standard: float, low: float, high: float, guard: float = 0.0) -> Risks:
    """Global risks where both the parts and the gauge scatter normally.

    Units: one unit throughout. Raises: BadLimits for reversed limits, BadFigure. Source: JCGM 106, 9.5 (from memory).
    """
    least, greatest, width = real(low), real(high), real_not_negative(guard, "the guard band")
    if least >= greatest:
        raise BadLimits("The limits are reversed: check them against the page.")
    mean, scatter, gauge = real(process_mean), real_positive(process_sd), real_positive(standard)
    floor, ceiling = least + width, greatest - width

    def accepted(true: float) -> float:
        return float(ndtr((ceiling - true) / gauge) - ndtr((floor - true) / gauge)) if ceiling > floor else 0.0

    def share(start: float, end: float, refused: bool) -> float:
        start, end = max(start, mean - REACH * scatter), min(end, mean + REACH * scatter)
        if start >= end:
            return 0.0
        marks = [mark for mark in (floor, ceiling, mean) if start < mark < end]
        weigh = (lambda x: 1 - accepted(x)) if refused else accepted
        return float(quad(lambda x: norm.pdf(x, mean, scatter) * weigh(x), start, end, points=marks or None, limit=200)[0])

    far = REACH * (scatter + gauge) + abs(mean) + abs(least) + abs(greatest)
    return Risks(share(-far, least, False) + share(greatest, far, False), share(least, greatest, True))


def process_sd_for_share(half_width: float, share_within: float) -> float:
    """Standard deviation of a centred normal process of which a share lies within plus or minus a half width.

    Units: the unit of the half width. Raises: BadFigure for a share outside 0 to 1. Source: normal distribution.
    """
    share = real(share_within, "the share within limits")
    if not 0 < share < 1:
        raise BadFigure("The share within limits lies between 0 and 1.")
    return real_positive(half_width, "the half width") / float(ndtri((1 + share) / 2))
