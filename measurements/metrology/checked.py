"""Records that hold no nonsense: whoever is handed one need not look at its figures again."""

import dataclasses
from collections.abc import Iterable, Mapping
from decimal import Decimal
from fractions import Fraction
from math import inf
from typing import ClassVar

from measurements.metrology.errors import BadFigure, BadLimits
from measurements.metrology.figures import real

MOST_BITS = 1 << 18  # what is worked out of many readings grows longer than any of them
Pairs = tuple[tuple[str, str], ...]
Names = tuple[str, ...]


class Checked:
    """Base of a frozen dataclass, checked when it is made. Raises BadFigure, BadLimits.

    Every number is finite and of a length that means something, also in a tuple or a mapping; those named are of the right sign
    and in the right order, and only those named `endless` may be infinite.
    """

    __slots__ = ()
    _positive: ClassVar[Names] = ()
    _not_negative: ClassVar[Names] = ()
    _endless: ClassVar[Names] = ()
    _in_order: ClassVar[Pairs] = ()

    def __init_subclass__(
        cls, *, positive: Names = (), not_negative: Names = (), endless: Names = (), in_order: Pairs = ()
    ) -> None:
        cls._positive, cls._not_negative, cls._endless, cls._in_order = positive, not_negative, endless, in_order

    def __post_init__(self) -> None:
        for name in (field.name for field in dataclasses.fields(self)):  # type: ignore[arg-type]  # each child is one
            value = getattr(self, name)
            if value is None or (value == inf and name in self._endless):
                continue
            _check(value, name.replace("_", " "))
            if (name in self._positive and value <= 0) or (name in self._not_negative and value < 0):
                raise BadFigure(f"{name.replace('_', ' ')} has the wrong sign: read it again.")
        for low, high in self._in_order:
            least, greatest = getattr(self, low), getattr(self, high)
            if least is not None and greatest is not None and least > greatest:
                raise BadLimits(f"{low.replace('_', ' ')} and {high.replace('_', ' ')} are reversed: check them.")


def _check(value: object, what: str) -> None:
    if isinstance(value, float):
        real(value, what)
    elif isinstance(value, Decimal):
        if not value.is_finite() or abs(value.adjusted()) + len(value.as_tuple().digits) > MOST_BITS // 4:
            raise BadFigure(f"{what} is not a finite number of a length that means something: read it again.")
    elif isinstance(value, int | Fraction):
        if max(value.numerator.bit_length(), value.denominator.bit_length()) > MOST_BITS:
            raise BadFigure(f"{what} has too many digits to be a measurement: type it again.")
    elif isinstance(value, Mapping):
        _check_all((*value, *value.values()), what)
    elif isinstance(value, tuple | list):
        _check_all(value, what)


def _check_all(values: Iterable[object], what: str) -> None:
    for value in values:
        _check(value, what)
