"""What was read on one journal or bore, as far as grinding asks."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadLimits
from measurements.metrology.figures import Exact, exact_not_negative, exact_positive
from measurements.metrology.form.section import sections
from measurements.metrology.form.taper import steepest
from measurements.metrology.regrind.classes import Kind


@dataclass(frozen=True, kw_only=True)
class Surface:
    """One journal or bore: least and greatest diameter, run-out (total indicator reading), out-of-round and taper without sign.

    All in one length unit. A bore that is only worn has no run-out; give one where its axis has moved or leans.
    """

    name: str
    least: Exact
    greatest: Exact
    runout: Exact = 0
    out_of_round: Exact = 0
    taper: Exact = 0


@dataclass(frozen=True)
class Stock(Checked, not_negative=("runout", "out_of_round", "taper"), in_order=(("least", "greatest"),)):
    """Where a surface stands, sizes turned so that less is always more metal gone (`Kind.sign`)."""

    least: Fraction
    greatest: Fraction
    runout: Fraction
    out_of_round: Fraction
    taper: Fraction


def surface_from_planes(name: str, planes: Mapping[str, Sequence[Exact]], order: Sequence[str], runout: Exact = 0) -> Surface:
    """A surface from its diameters at named planes along the axis, each read in the same directions.

    Units: one length. Shape: plane name to diameters; `order` names at least two planes. Raises: as `form.section.sections` and
    `form.taper.steepest`. Source: TM 5-3805-262-34, 4-1 (front and rear, and 90 degrees apart).
    """
    found = sections(planes)
    return Surface(
        name=name,
        least=min(one.least for one in found.values()),
        greatest=max(one.greatest for one in found.values()),
        runout=exact_not_negative(runout, "the run-out"),
        out_of_round=max(one.out_of_round for one in found.values()),
        taper=abs(steepest(planes, order)[2]),
    )


def stock_of(surface: Surface, kind: Kind) -> Stock:
    """The exact figures of a surface, sizes turned by the kind.

    Units: the unit of the surface. Raises: BadLimits when least and greatest are reversed, BadFigure.
    Source: definition.
    """
    least = exact_positive(surface.least, f"the least diameter of {surface.name}")
    greatest = exact_positive(surface.greatest, f"the greatest diameter of {surface.name}")
    if least > greatest:
        raise BadLimits(f"The least diameter of {surface.name} is above its greatest: read it again.")
    low, high = sorted((kind.sign * least, kind.sign * greatest))
    return Stock(
        low,
        high,
        exact_not_negative(surface.runout, f"the run-out of {surface.name}"),
        exact_not_negative(surface.out_of_round, f"the out-of-round of {surface.name}"),
        exact_not_negative(surface.taper, f"the taper of {surface.name}"),
    )
