"""Is it good? A reading judged by its row: plain values in, figures with a verdict and its reason out."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import lcm

from measurements.judge.lines import Answer, Wording, judged
from measurements.judge.scales import extra_places
from measurements.metrology.limits import LimitRow, criterion
from measurements.metrology.numbers import mantissa_and_places, plain, plain_ratio
from measurements.metrology.rounding import divide_half_even
from measurements.metrology.thermal import referred_to_20
from measurements.metrology.units import ratio
from measurements.metrology.verdicts import Verdict
from measurements.readings.points import Point

VERSION = "1"


@dataclass(frozen=True)
class Warmth:
    """Part and gauge at one temperature in °C, having lain together; coefficients of expansion per kelvin."""

    temperature_c: Fraction
    part_coefficient: Fraction
    gauge_coefficient: Fraction

    def at_20(self, value: Fraction) -> Fraction:
        """The value referred to 20 °C (ISO 1). Raises BadFigure for a value of zero or below."""
        return referred_to_20(value, self.part_coefficient, self.temperature_c, self.gauge_coefficient, self.temperature_c)


@dataclass(frozen=True)
class Read:
    """What was read of one part, all in `unit`; `u_squared` is U² at k = 2, 0 where it is not stated.

    `barred` says why the gauge may not decide, whatever it showed.
    """

    points: Sequence[Point]
    unit: str
    u_squared: Fraction = Fraction(0)
    barred: str = ""
    warmth: Warmth | None = None

    @cached_property
    def places(self) -> int:
        """The decimals of the finest value."""
        return max(places for _, places in self._typed)

    @cached_property
    def typed(self) -> list[Fraction]:
        """The values as they were read, in `unit`. Raises NotANumber."""
        return [Fraction(mantissa, 10**places) for mantissa, places in self._typed]

    def values(self, unit: str) -> list[Fraction]:
        """The values at 20 °C in `unit`, in the order of the points. Raises MeasureError."""
        at_20 = [self.warmth.at_20(value) for value in self.typed] if self.warmth else self.typed
        if unit == self.unit:
            return at_20
        factor = ratio(self.unit, unit)
        return [factor * value for value in at_20]

    def u_squared_in(self, unit: str) -> Fraction:
        return self.u_squared if unit == self.unit else self.u_squared * ratio(self.unit, unit) ** 2

    @cached_property
    def _typed(self) -> list[tuple[int, int]]:
        return [mantissa_and_places(point.value) for point in self.points]


@dataclass(frozen=True)
class Found:
    """Exact figures in the row's unit, and with how many decimals they are written: `places` None is as many as needed."""

    least: Fraction
    greatest: Fraction
    mean: Fraction
    places: int | None
    mean_places: int


def judge_reading(row: LimitRow, read: Read, fits: Sequence[str] = ()) -> Answer:
    """The verdict on everything that was read; `fits` are the fits that name the row. Raises MeasureError."""
    values = read.values(row.unit)
    mean = sum(values[1:], values[0]) / len(values)
    return answer(row, found(row, [read], min(values), max(values), mean), read.u_squared_in(row.unit), read.barred, fits)


def found(row: LimitRow, reads: Sequence[Read], least: Fraction, greatest: Fraction, mean: Fraction) -> Found:
    """The figures of one reading or of two mates, written as finely as the finest of them was typed."""
    places = max(read.places for read in reads)
    as_typed = all(read.unit == row.unit and not read.warmth for read in reads)
    mean_places = max(read.places + extra_places(ratio(read.unit, row.unit)) for read in reads)
    return Found(least, greatest, mean, places if as_typed else None, mean_places)


def answer(row: LimitRow, figures: Found, u_squared: Fraction, barred: str = "", fits: Sequence[str] = ()) -> Answer:
    """The figures in words with the verdict; a gauge that is `barred` decides nothing, whatever the values."""
    verdict, reason, conformity = (Verdict.NOT_JUDGED, barred, "") if barred else _decided(row, figures, u_squared, fits)
    return Answer(
        minimum=_text(figures.least, figures.places),
        maximum=_text(figures.greatest, figures.places),
        mean=plain(_rounded(figures.mean, figures.mean_places), figures.mean_places),
        verdict=verdict,
        conformity=conformity,
        reason=reason,
    )


def _decided(row: LimitRow, figures: Found, u_squared: Fraction, fits: Sequence[str]) -> tuple[Verdict, str, str]:
    """Verdict, reason and conformity, decided at a scale where values, limits and the square of U are whole numbers."""
    size = lcm(10**row.places, figures.least.denominator, figures.greatest.denominator)
    size *= (u_squared * size * size).denominator
    judgement, conformity = judged(
        criterion(row, size), int(figures.least * size), int(figures.greatest * size), int(u_squared * size * size)
    )
    return judgement.verdict, Wording(list(fits)).of(judgement.reasons), conformity


def _text(figure: Fraction, places: int | None) -> str:
    if places is None or 10**places % figure.denominator:
        return plain_ratio(figure.numerator, figure.denominator)
    return plain(_rounded(figure, places), places)


def _rounded(figure: Fraction, places: int) -> int:
    return divide_half_even(figure.numerator * 10**places, figure.denominator)
