"""How one surface takes one class: as it stands, by grinding, or not at all, and why."""

from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.figures import exact_not_negative
from measurements.metrology.regrind.classes import Kind, SizeClass, band_of
from measurements.metrology.regrind.refusals import Reason, Refusal
from measurements.metrology.regrind.rules import Bounds
from measurements.metrology.regrind.surface import Stock, Surface, stock_of


@dataclass(frozen=True)
class Work(Checked):
    """One surface in the class it takes: not ground, or ground to a size from `least` to `greatest`, in the surface's unit.

    For a surface that stands as it is, `least` and `greatest` are what was read.
    """

    surface: str
    size_class: SizeClass
    ground: bool
    least: Fraction
    greatest: Fraction


def clean_up_size(surface: Surface, kind: Kind, allowance: Fraction) -> Fraction:
    """The size at which a surface is true all round: least diameter less run-out less allowance, for a bore the greatest plus.

    Units: the unit of the surface; run-out as total indicator reading, which is what an eccentric surface loses on diameter.
    Raises: as `surface.stock_of`. Source: geometry of an eccentric circle.
    """
    stock = stock_of(surface, kind)
    return kind.sign * _clean(stock, exact_not_negative(allowance, "the grinding allowance"))


def take(surface: Surface, size_class: SizeClass, kind: Kind, bounds: Bounds) -> Work | Refusal:
    """What becomes of a surface in a class: used as it stands where it can be, else ground where the class is ground to.

    Units: one length throughout. Raises: BadLimits, BadFigure. Source: TM 5-3805-262-34, 4-1; TM 5-4320-300-14, 6-11.
    """
    stock, band = stock_of(surface, kind), band_of(size_class, kind)
    if not size_class.available:
        return Refusal(surface.name, size_class.name, Reason.NOT_AVAILABLE)
    against = _against_standing(stock, band.used_least, band.used_greatest, bounds)
    if against is None:
        low, high = sorted((kind.sign * stock.least, kind.sign * stock.greatest))
        return Work(surface.name, size_class, False, low, high)
    if not size_class.ground:
        return Refusal(surface.name, size_class.name, *against)
    top = min(band.greatest, _clean(stock, bounds.allowance))
    short = band.least + bounds.room - top
    if short > 0:
        return Refusal(surface.name, size_class.name, _against_grinding(stock, band.least, top, bounds), short)
    low, high = sorted((kind.sign * band.least, kind.sign * top))
    return Work(surface.name, size_class, True, low, high)


def _clean(stock: Stock, allowance: Fraction) -> Fraction:
    return stock.least - stock.runout - allowance


def _against_standing(stock: Stock, low: Fraction, high: Fraction, bounds: Bounds) -> tuple[Reason, Fraction] | None:
    if stock.least < low:
        return Reason.BEYOND_USE, low - stock.least
    if stock.greatest > high:
        return Reason.NEEDS_METAL_OFF, stock.greatest - high
    if bounds.out_of_round is not None and stock.out_of_round > bounds.out_of_round:
        return Reason.OUT_OF_ROUND, stock.out_of_round - bounds.out_of_round
    if bounds.taper is not None and stock.taper > bounds.taper:
        return Reason.TAPERED, stock.taper - bounds.taper
    return None


def _against_grinding(stock: Stock, low: Fraction, top: Fraction, bounds: Bounds) -> Reason:
    if top >= low:
        return Reason.TOO_LITTLE_ROOM
    return Reason.BOWED if stock.least - bounds.allowance >= low else Reason.WORN
