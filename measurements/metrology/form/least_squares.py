"""Least-squares circle and plane through measured points, with the departure of the points from them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NoAnswer, NothingGiven
from measurements.metrology.figures import GREATEST

Points = Sequence[Sequence[float]]


@dataclass(frozen=True)
class Circle(Checked):
    """Centre and radius in the unit of the points, sum of squared radial residuals, and roundness (peak to valley)."""

    x: float
    y: float
    radius: float
    sum_of_squares: float
    roundness: float


@dataclass(frozen=True)
class Plane(Checked):
    """Unit normal and a point of the plane, and flatness: greatest less least distance, in the unit of the points."""

    normal: tuple[float, float, float]
    through: tuple[float, float, float]
    flatness: float


def algebraic_circle(points: Points) -> Circle:
    """The circle that minimises the algebraic distance: unit-norm coefficients of a(x²+y²) + b·x + c·y + d = 0.

    Units: the unit of the points. Shape: (n, 2), n from three. Raises: NothingGiven, BadFigure, NoAnswer for points on a line.
    Source: Gander, Golub and Strebel 1994.
    """
    array = _array(points, columns=2, at_least=3)
    design = np.column_stack([(array**2).sum(axis=1), array, np.ones(len(array))])
    a, b, c, d = np.linalg.svd(design)[2][-1]
    if abs(a) < 1e-12:
        raise NoAnswer("The points lie on a straight line: no circle passes through them. Spread them around the surface.")
    x, y = -b / (2 * a), -c / (2 * a)
    squared = x * x + y * y - d / a
    if squared <= 0:
        raise NoAnswer("The points do not lie around a circle: read them again.")
    return _circle(array, float(x), float(y), float(np.sqrt(squared)))


def least_squares_circle(points: Points) -> Circle:
    """The circle that minimises the squared radial distances (Gaussian associated circle).

    Units: the unit of the points. Shape: (n, 2), n from three. Raises: as `algebraic_circle`.
    Source: Gander, Golub and Strebel 1994; ISO 12181-1 least-squares reference circle, from memory.
    """
    array = _array(points, columns=2, at_least=3)
    start = algebraic_circle(points)
    found = least_squares(
        lambda guess: np.hypot(array[:, 0] - guess[0], array[:, 1] - guess[1]) - guess[2],
        (start.x, start.y, start.radius),
        xtol=1e-15,
        ftol=1e-15,
        gtol=1e-15,
    )
    return _circle(array, *(float(value) for value in found.x))


def least_squares_plane(points: Points) -> Plane:
    """The plane that minimises the squared distances at right angles to itself, and the flatness against it.

    Units: the unit of the points. Shape: (n, 3), n from three. Raises: NothingGiven, BadFigure, NoAnswer for points on a line.
    Source: total least squares by singular values; ISO 12781-1 least-squares reference plane, from memory.
    """
    array = _array(points, columns=3, at_least=3)
    centre = array.mean(axis=0)
    _, spread, axes = np.linalg.svd(array - centre)
    if spread[1] <= 1e-12 * max(1.0, float(spread[0])):
        raise NoAnswer("The points lie on a straight line: a plane needs points to both sides of it.")
    distance = (array - centre) @ axes[2]
    nx, ny, nz = (float(value) for value in axes[2])
    cx, cy, cz = (float(value) for value in centre)
    return Plane((nx, ny, nz), (cx, cy, cz), float(distance.max() - distance.min()))


def _circle(array: NDArray[np.float64], x: float, y: float, radius: float) -> Circle:
    residual = np.hypot(array[:, 0] - x, array[:, 1] - y) - radius
    return Circle(x, y, radius, float(residual @ residual), float(residual.max() - residual.min()))


def _array(points: Points, columns: int, at_least: int) -> NDArray[np.float64]:
    try:
        array = np.asarray(points, dtype=np.float64)
    except (OverflowError, TypeError, ValueError) as trouble:
        raise BadFigure(f"Each point needs {columns} usable numbers.") from trouble
    if len(array) < at_least:
        raise NothingGiven(f"{len(array)} points given, at least {at_least} needed.")
    if array.ndim != 2 or array.shape[1] != columns:
        raise BadFigure(f"Each point needs {columns} coordinates.")
    if not np.isfinite(array).all():
        raise BadFigure("A coordinate is not a finite number: read it again.")
    if np.abs(array).max() > GREATEST:
        raise BadFigure("A coordinate is too large to be a measurement: type it again.")
    return array
