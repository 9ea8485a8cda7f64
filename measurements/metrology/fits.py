"""The fit of two mates from what was read on each. Positive is loose, negative is tight."""

from typing import NamedTuple


class Ends(NamedTuple):
    """The two ends of a fit, in the unit and scale of its mates."""

    tightest: int
    loosest: int


def fit_ends(outer_least: int, outer_greatest: int, inner_least: int, inner_greatest: int) -> Ends:
    """From smallest outer - largest inner to largest outer - smallest inner, all four at one unit and scale."""
    return Ends(tightest=outer_least - inner_greatest, loosest=outer_greatest - inner_least)


def combined_u_squared(outer_u: int, inner_u: int) -> int:
    """The square of the fit's expanded uncertainty, mates independent: the sum of the squares (JCGM 100, 5.1.2).

    0 is *not stated*, for a mate and so for the fit. Both at the fit's scale, same k.
    """
    return outer_u * outer_u + inner_u * inner_u if outer_u and inner_u else 0
