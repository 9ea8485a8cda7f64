"""Displacement, clearance volume and compression ratio."""

import math
from collections.abc import Iterable
from fractions import Fraction
from typing import SupportsFloat

from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import Exact, exact_all, exact_positive, real_positive, whole_number

MOST_CYLINDERS = 100


def displacement(bore: SupportsFloat, stroke: SupportsFloat, cylinders: int = 1) -> float:
    """Volume that the pistons sweep.

    Units: the cube of the length. Raises: BadFigure for zero and below, and for a number of cylinders that is not whole.
    Source: volume of a cylinder.
    """
    whole_number(cylinders, "The number of cylinders", 1, MOST_CYLINDERS)
    across = real_positive(bore, "the bore")
    return math.pi / 4 * across * across * real_positive(stroke, "the stroke") * cylinders


def clearance_volume(parts: Iterable[Exact]) -> Fraction:
    """Volume above the piston at top centre: chamber, gasket, deck and dish add up; a dome counts below zero.

    Units: one volume. Shape: at least one part. Raises: NothingGiven, BadFigure when nothing is left. Source: arithmetic.
    """
    return exact_positive(sum(exact_all(parts, "the volumes"), Fraction()), "the volume above the piston")


def compression_ratio(swept: Exact, clearance: Exact) -> Fraction:
    """Volume at bottom centre over volume at top centre.

    Units: one volume in; a ratio out. Raises: BadFigure for zero and below. Source: definition.
    """
    above = exact_positive(clearance, "the volume above the piston")
    return (exact_positive(swept, "the swept volume") + above) / above


def clearance_for_ratio(swept: Exact, ratio: Exact) -> Fraction:
    """Volume above the piston that gives a compression ratio.

    Units: one volume. Raises: BadFigure for a swept volume of zero and below, and a ratio of one and below. Source: definition.
    """
    wanted = exact_positive(ratio, "the compression ratio")
    if wanted <= 1:
        raise BadFigure("A compression ratio is above one: check the figure.")
    return exact_positive(swept, "the swept volume") / (wanted - 1)
