"""What the approved data say about grinding a group of surfaces."""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.figures import Exact, exact_not_negative
from measurements.metrology.regrind.classes import Kind


class Policy(StrEnum):
    """How the classes of a group hang together."""

    ALIKE = "all alike"
    GROUND_ALIKE = "if one is ground, all are"
    EACH = "one by one"


@dataclass(frozen=True, kw_only=True)
class Rules:
    """Rules of one group, lengths in the unit of its surfaces, on diameter; None is a limit that does not exist.

    `allowance` is what must come off beyond clean-up, `room` the least width of sizes the grinder needs to land in. Beyond
    `most_runout` there is no plan. Beyond `most_out_of_round` or `most_taper` a surface is not used as it stands. `follows` is
    what the data ask for after any grinding.
    """

    kind: Kind = Kind.SHAFT
    policy: Policy = Policy.EACH
    allowance: Exact = 0
    room: Exact = 0
    most_runout: Exact | None = None
    most_out_of_round: Exact | None = None
    most_taper: Exact | None = None
    follows: tuple[str, ...] = ()


@dataclass(frozen=True)
class Bounds(Checked, not_negative=("allowance", "room", "runout", "out_of_round", "taper")):
    """The lengths of the rules as exact rationals."""

    allowance: Fraction
    room: Fraction
    runout: Fraction | None
    out_of_round: Fraction | None
    taper: Fraction | None


def bounds_of(rules: Rules) -> Bounds:
    """The lengths of the rules, exact.

    Units: those of the rules. Raises: BadFigure for negative or unusable lengths. Source: common practice, no source.
    """
    return Bounds(
        exact_not_negative(rules.allowance, "the grinding allowance"),
        exact_not_negative(rules.room, "the room the grinder needs"),
        _limit(rules.most_runout, "the limit of run-out"),
        _limit(rules.most_out_of_round, "the limit of out-of-round"),
        _limit(rules.most_taper, "the limit of taper"),
    )


def _limit(value: Exact | None, what: str) -> Fraction | None:
    return None if value is None else exact_not_negative(value, what)
