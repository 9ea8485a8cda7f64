"""Which push rod brings the dry clearance within its limits."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadLimits, NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive, ordered
from measurements.metrology.numbers import plain_ratio


@dataclass(frozen=True)
class PushRod(Checked, positive=("length",)):
    """A push rod to choose: its part number or mark, its length, and the dry clearance it gives, in one length unit."""

    name: str
    length: Fraction
    clearance: Fraction


def clearances(clearance: Exact, fitted: str, lengths: Mapping[str, Exact], rocker_ratio: Exact = 1) -> tuple[PushRod, ...]:
    """The dry clearance every push rod on the list would give, from the one read with the fitted one.

    A longer rod closes the clearance at the valve by the difference in length times the rocker's ratio. Units: one length; the
    ratio is valve side over push rod side. Shape: name to length, the fitted one among them. Raises: NothingGiven without a
    list, NoAnswer when the fitted one is not on it, BadFigure. Source: lever arithmetic.
    """
    if not lengths:
        raise NothingGiven("No push rod is listed: give the lengths that may be fitted.")
    if fitted not in lengths:
        raise NoAnswer(f"Push rod {fitted} is not on the list: give its length, or read the clearance with one that is.")
    read, ratio = exact_not_negative(clearance, "the dry clearance"), exact_positive(rocker_ratio, "the rocker's ratio")
    length = {name: exact_positive(value, f"the length of {name}") for name, value in lengths.items()}
    return tuple(PushRod(name, long, read + (length[fitted] - long) * ratio) for name, long in length.items())


def push_rod_for(
    clearance: Exact, fitted: str, lengths: Mapping[str, Exact], low: Exact, high: Exact, rocker_ratio: Exact = 1
) -> PushRod:
    """The push rod to fit: the fitted one while it is within limits, else the one nearest the middle of them.

    Units: one length. Shape: as `clearances`. Raises: as `clearances`; BadLimits; NoAnswer, which names the nearest, when none
    comes within the limits. Source: common practice, no source.
    """
    least, greatest = _both(low, high)
    choices = clearances(clearance, fitted, lengths, rocker_ratio)
    within = [rod for rod in choices if least <= rod.clearance <= greatest]
    middle = (least + greatest) / 2
    if not within:
        near = min(choices, key=lambda rod: (abs(rod.clearance - middle), rod.name))
        left = plain_ratio(near.clearance.numerator, near.clearance.denominator)
        raise NoAnswer(f"No listed push rod comes within limits: {near.name}, the nearest, would leave {left}. Look for wear.")
    kept = [rod for rod in within if rod.name == fitted]
    return kept[0] if kept else min(within, key=lambda rod: (abs(rod.clearance - middle), rod.name))


def _both(low: Exact, high: Exact) -> tuple[Fraction, Fraction]:
    ordered(low, high, "the limits of the clearance")
    least, greatest = exact(low, "the least clearance"), exact(high, "the greatest clearance")
    if greatest <= 0:
        raise BadLimits("The greatest clearance must be above zero: check the limits against the page.")
    return least, greatest
