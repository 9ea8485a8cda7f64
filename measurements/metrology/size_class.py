"""A row of limits for another size class of the same surface: every limit moves by the class's offset."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import exact
from measurements.metrology.limits import LimitRow, check_order
from measurements.metrology.units import ratio


def in_size_class(row: LimitRow, offset: Decimal, unit: str = "") -> LimitRow:
    """The row's limits for a surface of a size class: undersize is negative, oversize positive, standard is 0.

    Only where data say that limits follow the class; a table that prints each class is taken as printed. The second column is
    left out: it would have to be converted, and a converted figure checks nothing.

    Units: the offset in `unit`, or in the row's. Raises: UnknownUnit, OtherDimension, BadFigure for a fit (its clearance is the
    same in every class), for an offset without end in the row's unit, or one that leaves nothing of the part.
    Source: TM 5-4320-300-14, 6-11 (journals of a class lie its undersize below the standard ones).
    """
    if row.is_fit:
        raise BadFigure("A fit has the same limits in every size class: take the class of both mates instead.")
    check_order(row)
    moved = exact(offset, "the offset") * ratio(unit or row.unit, row.unit)
    new_min, new_max, service_min, service_max = (None if limit is None else _moved(limit, moved) for limit in row.limits)
    return replace(
        row,
        new_min=new_min,
        new_max=new_max,
        service_min=service_min,
        service_max=service_max,
        alt_unit="",
        alt_new_min=None,
        alt_new_max=None,
        alt_service_min=None,
        alt_service_max=None,
    )


def _moved(limit: Decimal, offset: Fraction) -> Decimal:
    total = Fraction(limit) + offset
    if total <= 0:
        raise BadFigure("The offset leaves nothing of the part: check the size class.")
    denominator, places = total.denominator, 0
    while 10**places % denominator:
        places += 1
        if places > 30:
            raise BadFigure("The offset has no end in the unit of the row: give it in that unit.")
    shown = max(places, -int(limit.as_tuple().exponent))
    digits = str(total.numerator * 10**shown // denominator)
    return Decimal((0, tuple(map(int, digits)), -shown))
