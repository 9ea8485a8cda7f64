"""A pattern gone through several times with rising torque."""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadLimits, NothingGiven
from measurements.metrology.figures import Exact, exact_all, exact_positive


@dataclass(frozen=True)
class Pass(Checked):
    """One time through: its number, the torque in the unit of the final one, and the order of the fasteners."""

    number: int
    torque: Fraction
    order: tuple[Hashable, ...]


def passes(
    order: Sequence[Hashable], final: Exact, shares: Sequence[Exact], last_round: Sequence[Hashable] = ()
) -> tuple[Pass, ...]:
    """The passes of a joint: each share of the final torque in the order given, then, if asked, once round at the final torque.

    Units: torque in one unit; shares of 1. Shape: fasteners, each once; shares rising to 1. Raises: NothingGiven, BadLimits for
    shares that do not rise to 1 or fasteners named twice or missing from the last round, BadFigure.
    Source: ASME PCC-1 (from memory): rising passes in a cross pattern, a last one around the circle; the shares are data.
    """
    parts, full = exact_all(shares, "the shares of the torque"), exact_positive(final, "the final torque")
    if not order:
        raise NothingGiven("No fastener was given: name those of the joint.")
    if parts[0] <= 0 or any(after <= before for before, after in pairwise(parts)) or parts[-1] != 1:
        raise BadLimits("The passes must rise from above nothing to the whole torque (1): check the shares against the data.")
    if len(set(order)) < len(order):
        raise BadLimits("A fastener is named twice in the order: name each once.")
    if last_round and (len(last_round) != len(order) or set(last_round) != set(order)):
        raise BadLimits("The last round must name the same fasteners, each once.")
    rounds = [(share * full, tuple(order)) for share in parts] + ([(full, tuple(last_round))] if last_round else [])
    return tuple(Pass(number, torque, places) for number, (torque, places) in enumerate(rounds, start=1))
