"""A row of a limit table, and what of it binds a reading."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Literal, NamedTuple

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, ReversedLimits
from measurements.metrology.figures import check_whole
from measurements.metrology.numbers import places_of
from measurements.metrology.units import ratio

Worn = Literal["new", "fit"]
Rule = Literal["", "simple", "guard"]
Basis = Literal["absolute", "rounding"]
LIMITS = ("new_min", "new_max", "service_min", "service_max")


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitRow(Checked):
    """One row as typed. Limits in `unit`, the second column in `alt_unit`; None is a limit that does not exist.

    `worn` says what wear beyond a new limit without a service limit means: replace (`new`) or look at the fit (`fit`).
    `rule` blank means guard where an uncertainty is stated. `decimals` is what `basis` rounding rounds to.
    A row with `outer_row` and `inner_row` is a fit, computed from the readings of those rows.
    """

    row: str
    part: str
    characteristic: str
    unit: str
    new_min: Decimal | None = None
    new_max: Decimal | None = None
    service_min: Decimal | None = None
    service_max: Decimal | None = None
    worn: Worn = "new"
    rule: Rule = ""
    basis: Basis = "absolute"
    decimals: int | None = None
    outer_row: str = ""
    inner_row: str = ""
    alt_unit: str = ""
    alt_new_min: Decimal | None = None
    alt_new_max: Decimal | None = None
    alt_service_min: Decimal | None = None
    alt_service_max: Decimal | None = None

    @property
    def is_fit(self) -> bool:
        return bool(self.outer_row)

    @property
    def limits(self) -> tuple[Decimal | None, ...]:
        """New least, new greatest, service least, service greatest, in `unit`."""
        return self.new_min, self.new_max, self.service_min, self.service_max

    @property
    def alt_limits(self) -> tuple[Decimal | None, ...]:
        """The same four in `alt_unit`."""
        return self.alt_new_min, self.alt_new_max, self.alt_service_min, self.alt_service_max

    @property
    def places(self) -> int:
        """The most decimals any limit in `unit`, or the rounding, needs."""
        return max([self.decimals or 0, *(places_of(limit) for limit in self.limits if limit is not None)])


class Criterion(NamedTuple):
    """What a value is held against, as whole numbers at one scale of the row's unit; None is no limit.

    `low` and `high` are the effective service limits; `wear_min` and `wear_max` the new limits of sides where the limit
    is on the fit; `step` is one unit of the last decimal kept by the rounding method, 0 for the absolute method.
    """

    new_min: int | None
    new_max: int | None
    low: int | None
    high: int | None
    wear_min: int | None
    wear_max: int | None
    rule: Rule
    step: int
    columns_disagree: bool


def criterion(row: LimitRow, scale: int) -> Criterion:
    """The row's criterion in whole numbers.

    Units: 1/scale of the row's unit; `scale` is a multiple of ten to the row's `places`. Raises: as `check_order` and
    `disagreements`; BadFigure for a scale at which the limits are not whole.
    Source: TM 9-2520-234-35, paragraph 235 (what one and two asterisks mean); ASTM E29 (the method of rounding).
    """
    check_whole((scale,))
    if scale < 1:
        raise BadFigure("A scale is a whole number from one: it says how many parts a unit has.")
    check_order(row)
    new_min, new_max, service_min, service_max = (_scaled(limit, scale) for limit in row.limits)
    on_fit = row.worn == "fit"
    unserved_min, unserved_max = (new_min, new_max) if not on_fit else (None, None)
    return Criterion(
        new_min=new_min,
        new_max=new_max,
        low=unserved_min if service_min is None else service_min,
        high=unserved_max if service_max is None else service_max,
        wear_min=new_min if on_fit and service_min is None else None,
        wear_max=new_max if on_fit and service_max is None else None,
        rule=row.rule,
        step=scale // 10 ** (row.decimals or 0) if row.basis == "rounding" else 0,
        columns_disagree=bool(disagreements(row)),
    )


def _scaled(limit: Decimal | None, scale: int) -> int | None:
    if limit is None:
        return None
    numerator, denominator = limit.as_integer_ratio()
    whole, rest = divmod(numerator * scale, denominator)
    if rest:
        raise BadFigure("At that scale a limit is no whole number: take a finer one.")
    return whole


def check_criterion(held: Criterion) -> None:
    """Refuse a criterion made by hand of anything but whole numbers in order.

    Units: whole numbers at the criterion's scale. Raises: BadFigure, ReversedLimits. Source: definition.
    """
    new_min, new_max, low, high, wear_min, wear_max, _, step, _ = held
    check_whole((new_min, new_max, low, high, wear_min, wear_max, step))
    for least, greatest in ((new_min, new_max), (low, high)):
        if least is not None and greatest is not None and least > greatest:
            raise ReversedLimits("limits are reversed: check the page")


def check_order(row: LimitRow) -> None:
    """Refuse a row unless service least <= new least <= new greatest <= service greatest, in either column.

    Equal neighbours are legal. A service limit tighter than the new one is refused too: the columns were swapped.

    Units: those of each column. Raises: ReversedLimits.
    Source: definition; TM 9-2815-225-34P, appendix F (limits on either side).
    """
    for unit, (new_min, new_max, service_min, service_max) in ((row.unit, row.limits), (row.alt_unit, row.alt_limits)):
        chain = (("service_min", service_min), ("new_min", new_min), ("new_max", new_max), ("service_max", service_max))
        given = [(name, limit) for name, limit in chain if limit is not None]
        for (lower, low), (upper, high) in pairwise(given):
            if low > high:
                raise ReversedLimits(f"limits are reversed: {lower} {low:f} is above {upper} {high:f} ({unit}); check the page")


def disagreements(row: LimitRow) -> list[str]:
    """One sentence for each limit whose two unit columns disagree; empty where they agree or there is one column.

    They disagree when their difference is more than half a unit of the last digit of the one and also of the other: a
    column converted from its neighbour and rounded is never further off than half of its own last digit. A limit that
    stands only in the second column disagrees; one that stands only in the first has nothing to be compared with.

    Units: those of the row's two columns. Raises: UnknownUnit, OtherDimension. Source: common practice, no source; a case is
    TM 5-4320-300-14, 6-11, where one figure is a misprint.
    """
    if not row.alt_unit:
        return []
    to_row = ratio(row.alt_unit, row.unit)
    return [
        f"{name} {_shown(limit, row.unit)}, alt_{name} {_shown(alt, row.alt_unit)}"
        for name, limit, alt in zip(LIMITS, row.limits, row.alt_limits, strict=True)
        if alt is not None and (limit is None or _apart(limit, alt, to_row))
    ]


def _apart(limit: Decimal, alt: Decimal, to_row: Fraction) -> bool:
    half_digit = Fraction(1, 2) * Fraction(10) ** -places_of(limit)
    alt_half_digit = to_row / 2 * Fraction(10) ** -places_of(alt)
    return bool(abs(Fraction(limit) - Fraction(alt) * to_row) > max(half_digit, alt_half_digit))


def _shown(limit: Decimal | None, unit: str) -> str:
    return "none" if limit is None else f"{limit:f} {unit}"
