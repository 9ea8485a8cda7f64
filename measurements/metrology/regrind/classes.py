"""Size classes of a surface: which sizes a bearing or a piston is made for, and how far each lies from standard."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadLimits, NothingGiven
from measurements.metrology.figures import Exact, exact_positive, ordered


class Kind(StrEnum):
    """Which way metal goes: a shaft is ground smaller, a bore is made larger."""

    SHAFT = "shaft"
    BORE = "bore"

    @property
    def sign(self) -> int:
        """+1 or -1: a size times this falls as metal goes, for shaft and bore alike."""
        return 1 if self is Kind.SHAFT else -1


@dataclass(frozen=True, kw_only=True)
class SizeClass:
    """One class: the band a surface is ground to, in one length unit, and what goes with it.

    `ground` False is a class that only makes up for slight wear. `used_least` and `used_greatest` widen the band for a surface
    that stands in it as it is; None is the band itself. `order` is the bearing or piston to order, `follows` what the data ask
    for after grinding to this class, `available` whether it can be had.
    """

    name: str
    least: Exact
    greatest: Exact
    ground: bool = True
    used_least: Exact | None = None
    used_greatest: Exact | None = None
    order: str = ""
    follows: tuple[str, ...] = ()
    available: bool = True


@dataclass(frozen=True)
class Band(Checked, in_order=(("least", "greatest"),)):
    """Sizes times the sign of the kind, so that less is always more metal gone: the ground band, and the band in use."""

    least: Fraction
    greatest: Fraction
    used_least: Fraction
    used_greatest: Fraction


def from_standard(size_class: SizeClass, standard: SizeClass) -> tuple[Fraction, Fraction]:
    """How far the least and the greatest size of a class lie from those of standard; undersizes are negative.

    The two differ where a figure of the table is wrong, or the class has another tolerance.
    Units: the unit of the classes. Raises: BadLimits, BadFigure. Source: definition; TM 5-4320-300-14, 6-11 (bearing size chart).
    """
    here, there = band_of(size_class, Kind.SHAFT), band_of(standard, Kind.SHAFT)
    return here.least - there.least, here.greatest - there.greatest


def band_of(size_class: SizeClass, kind: Kind) -> Band:
    """The band of a class with sizes turned so that less is always more metal gone.

    Units: the unit of the class. Raises: BadLimits for a reversed band or one in use narrower than it, BadFigure.
    Source: common practice, no source.
    """
    what = f"the sizes of class {size_class.name}"
    ordered(size_class.least, size_class.greatest, what)
    least, greatest = exact_positive(size_class.least, what), exact_positive(size_class.greatest, what)
    low = least if size_class.used_least is None else exact_positive(size_class.used_least, what)
    high = greatest if size_class.used_greatest is None else exact_positive(size_class.used_greatest, what)
    if low > least or high < greatest:
        raise BadLimits(f"{what}: the limits in use are narrower than those of new work. Check them against the page.")
    if kind is Kind.SHAFT:
        return Band(least, greatest, low, high)
    return Band(-greatest, -least, -high, -low)


def in_order(classes: Sequence[SizeClass], kind: Kind) -> tuple[SizeClass, ...]:
    """The classes from the least metal gone to the most.

    Units: one length. Shape: at least one class, each name once. Raises: NothingGiven, BadLimits, BadFigure.
    Source: definition.
    """
    if not classes:
        raise NothingGiven("No size class was given: enter the sizes that the data allow.")
    if len({one.name for one in classes}) < len(classes):
        raise BadLimits("Two size classes have the same name: name each once.")
    bands = {one.name: band_of(one, kind) for one in classes}
    return tuple(sorted(classes, key=lambda one: (bands[one.name].greatest, bands[one.name].least), reverse=True))
