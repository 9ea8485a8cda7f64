"""Margins of every part in every place, exact, and the fits they come from."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadLimits, MixedDimensions, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_positive, ordered

Margins = Sequence[Sequence[Exact | None]]


@dataclass(frozen=True)
class Mate(Checked, positive=("least", "greatest"), in_order=(("least", "greatest"),)):
    """One bore, journal or part: its name, and the least and greatest size read, in one length unit."""

    name: str
    least: Exact
    greatest: Exact


@dataclass(frozen=True)
class Scaled(Checked):
    """A table as whole numbers over one base; None where a part may not go."""

    rows: tuple[tuple[int | None, ...], ...]
    base: int


def scaled(table: Margins, what: str = "the margins") -> Scaled:
    """A table of places by parts as whole numbers over one common base.

    Units: those of the table. Shape: at least one row and one column, all rows of one length. Raises: NothingGiven,
    MixedDimensions, BadFigure. Source: common practice, no source.
    """
    rows = [[None if cell is None else exact(cell, what) for cell in row] for row in table]
    if not rows or not rows[0]:
        raise NothingGiven(f"No figure was given for {what}: there must be a place and a part.")
    if len({len(row) for row in rows}) > 1:
        raise MixedDimensions(f"{what}: every place needs one figure for each part.")
    base = lcm(*(cell.denominator for row in rows for cell in row if cell is not None))
    return Scaled(tuple(tuple(None if cell is None else int(cell * base) for cell in row) for row in rows), base)


def fit_margins(
    outer: Sequence[Mate], inner: Sequence[Mate], low: Exact | None, high: Exact | None, places_are_inner: bool = False
) -> tuple[tuple[Fraction | None, ...], ...]:
    """How far the fit of each pair lies inside its limits, at the nearer end; None where it lies outside.

    The tightest end is least bore less greatest shaft, the loosest greatest bore less least shaft; limits are clearances, so
    negative is tight. Rows are the outer mates, or the inner ones (journals that choose bearings) with `places_are_inner`.
    Units: one length throughout. Shape: at least one mate each. Raises: NothingGiven, BadLimits for reversed sizes or limits
    or where there is no limit at all, BadFigure. Source: TM 9-2520-234-35, 235 (fits, loose and tight).
    """
    least, greatest = ordered(low, high, "the limits of the fit")
    if least is None and greatest is None:
        raise BadLimits("The fit has no limit: a margin needs at least one.")
    bores, shafts = [_size(mate) for mate in outer], [_size(mate) for mate in inner]
    if not bores or not shafts:
        raise NothingGiven("A mate is missing: measure at least one of each.")
    table = [[_margin(bore, shaft, least, greatest) for shaft in shafts] for bore in bores]
    return tuple(zip(*table, strict=True)) if places_are_inner else tuple(tuple(row) for row in table)


def _size(mate: Mate) -> tuple[Fraction, Fraction]:
    ordered(mate.least, mate.greatest, f"the sizes of {mate.name}")
    return exact_positive(mate.least, mate.name), exact_positive(mate.greatest, mate.name)


def _margin(
    bore: tuple[Fraction, Fraction], shaft: tuple[Fraction, Fraction], low: Fraction | None, high: Fraction | None
) -> Fraction | None:
    rooms = [] if low is None else [bore[0] - shaft[1] - low]
    rooms += [] if high is None else [high - (bore[1] - shaft[0])]
    return min(rooms) if min(rooms) >= 0 else None
