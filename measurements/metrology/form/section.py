"""Out-of-round and size from diameters read across one plane in several directions."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.figures import Exact, exact_all


@dataclass(frozen=True)
class Section(Checked, positive=("least",), in_order=(("least", "greatest"),)):
    """Diameters of one plane in the unit they were read in: least, greatest, mean, and out-of-round."""

    least: Fraction
    greatest: Fraction
    mean: Fraction

    @property
    def out_of_round(self) -> Fraction:
        """Greatest less least diameter, in the unit of the readings."""
        return self.greatest - self.least


def section(diameters: Iterable[Exact]) -> Section:
    """Size and out-of-round of one plane, two-point method: a shape with an odd number of lobes is not seen.

    Units: one length unit throughout. Shape: one diameter for each direction, at least one.
    Raises: NothingGiven, BadFigure for zero and negative diameters. Source: TM 5-3805-262-34, 4-1 (diameters 90 degrees apart).
    """
    values = exact_all(diameters, "the diameters")
    if min(values) <= 0:
        raise BadFigure("A diameter must be above zero: read it again.")
    return Section(min(values), max(values), sum(values, Fraction()) / len(values))


def sections(planes: Mapping[str, Sequence[Exact]]) -> dict[str, Section]:
    """The section at every named plane, in the order given.

    Units: one length unit throughout. Shape: plane name to diameters. Raises: NothingGiven when there is no plane or an empty
    one, BadFigure as `section`. Source: TM 5-3805-262-34, 4-1.
    """
    if not planes:
        raise NothingGiven("No plane was measured: read at least one.")
    return {name: section(diameters) for name, diameters in planes.items()}


def worst_out_of_round(planes: Mapping[str, Sequence[Exact]]) -> tuple[str, Fraction]:
    """The plane that is most out of round, and by how much.

    Units: the unit of the readings. Shape: plane name to diameters. Raises: as `sections`. Source: TM 5-3805-262-34, 4-1.
    """
    found = sections(planes)
    name = max(found, key=lambda plane: found[plane].out_of_round)
    return name, found[name].out_of_round
