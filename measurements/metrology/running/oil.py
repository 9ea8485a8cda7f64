"""How much oil an engine uses."""

from collections.abc import Sequence
from fractions import Fraction

from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import Exact, exact_not_negative, exact_positive

QUARTS_PER_GALLON = 4


def oil_used(at_start: Exact, added: Sequence[Exact], at_end: Exact) -> Fraction:
    """Oil gone between two readings of the level: what was there, plus what was added, less what is left.

    Units: one volume unit throughout. Shape: any number of additions, also none. Raises: BadFigure for negative quantities
    and when more is left than was ever there. Source: definition.
    """
    put_in = exact_not_negative(at_start, "the oil at the start")
    put_in += sum((exact_not_negative(quantity, "the oil added") for quantity in added), Fraction())
    used = put_in - exact_not_negative(at_end, "the oil at the end")
    if used < 0:
        raise BadFigure("More oil is left than was put in: read the levels again, or write down the addition that is missing.")
    return used


def consumption(used: Exact, hours: Exact) -> Fraction:
    """Oil used per hour, exactly.

    Units: US quarts and hours give qt/h. Raises: BadFigure for a negative quantity or hours of zero and below.
    Source: definition.
    """
    return exact_not_negative(used, "the oil used") / exact_positive(hours, "the hours run")


def greatest_consumption(power_hp: Exact, pounds_per_hp_hour: Exact, pounds_per_gallon: Exact) -> Fraction:
    """The greatest consumption that an allowance by weight and power comes to; both weights are data of the limit.

    Units: hp, lb/(hp h) and lb/US gal give qt/h. Raises: BadFigure for zero and below. Source: arithmetic; four quarts to a
    gallon (definition).
    """
    pounds = exact_positive(power_hp, "the power") * exact_positive(pounds_per_hp_hour, "the allowance")
    return pounds * QUARTS_PER_GALLON / exact_positive(pounds_per_gallon, "the weight of a gallon")
