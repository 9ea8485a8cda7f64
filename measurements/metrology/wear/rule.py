"""The rate-of-wear rule, in exact figures: at the rate it wore so far, is a part within its maximum until the next overhaul?"""

from fractions import Fraction

from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive


def rate_of_wear(worn: Exact, hours: Exact) -> Fraction:
    """Amount worn over hours run.

    Units: any length, hours; length per hour. Raises: BadFigure for wear below zero or hours of zero and below.
    Source: TM 55-1905-220-14-4, 3-6 (5).
    """
    return exact_not_negative(worn, "the amount worn") / exact_positive(hours, "the hours run")


def clearance_then(clearance: Exact, rate: Exact, hours: Exact) -> Fraction:
    """The clearance after so many more hours at a rate.

    Units: any length, length per hour, hours. Raises: BadFigure for a negative rate or negative hours.
    Source: TM 55-1905-220-14-4, 3-6 (5).
    """
    growth = exact_not_negative(rate, "the rate") * exact_not_negative(hours, "the hours to the next overhaul")
    return exact(clearance, "the clearance") + growth


def hours_left(value: Exact, limit: Exact, rate: Exact) -> Fraction | None:
    """Hours until a value that changes at a signed rate meets its limit; None when it stands still or moves away from it.

    Units: any, per hour; hours. Raises: BadFigure. Source: TM 55-1905-220-14-4, 3-6 (5); API 510, 7.2.1 (remaining life).
    """
    speed, room = exact(rate, "the rate"), exact(limit, "the limit") - exact(value, "the value")
    if room == 0:
        return Fraction()
    return room / speed if room * speed > 0 else None


def may_go_back(clearance: Exact, greatest: Exact, worn: Exact, hours: Exact, until_overhaul: Exact) -> bool:
    """Whether a used part's clearance keeps within the maximum until the next overhaul; on the maximum is within.

    Units: one length throughout, hours. Raises: BadFigure as `rate_of_wear` and `clearance_then`.
    Source: TM 55-1905-220-14-4, 3-6 (5).
    """
    return clearance_then(clearance, rate_of_wear(worn, hours), until_overhaul) <= exact(greatest, "the maximum")
