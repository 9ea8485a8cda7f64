"""A value held against a limit of the stand, exactly."""

from dataclasses import dataclass
from fractions import Fraction

from engines.catalogue.data import RunLimit
from measurements.metrology.numbers import read_number

WITHIN, OUTSIDE, NOT_JUDGED = "within limits", "outside limits", "not judged"


@dataclass(frozen=True)
class Held:
    """`beyond` says that the run ends at once."""

    verdict: str
    beyond: bool
    why: str = ""


def hold(value: Fraction, limit: RunLimit) -> Held:
    """`value` in the limit's unit. A value that equals a limit is within it."""
    beyond = _is_out(value, limit.abort_low, limit.abort_high)
    if beyond or _is_out(value, limit.low, limit.high):
        return Held(OUTSIDE, beyond)
    return Held(WITHIN, False)


def _is_out(value: Fraction, low: str, high: str) -> bool:
    return bool(low and value < Fraction(read_number(low))) or bool(high and value > Fraction(read_number(high)))


def words_of(limit: RunLimit) -> str:
    """`60 to 100 psi; the run ends at once below 20 psi`."""
    kept = _range(limit.low, limit.high, limit.unit, " to ", "at least ", "at most ")
    ends = _range(limit.abort_low, limit.abort_high, limit.unit, " or above ", "below ", "above ", "below ")
    return "; ".join(filter(None, (kept, f"the run ends at once {ends}" if ends else ""))) or "no figure"


def _range(low: str, high: str, unit: str, between: str, only_low: str, only_high: str, both: str = "") -> str:
    if low and high:
        return f"{both}{low}{between}{high} {unit}"
    return f"{only_low}{low} {unit}" if low else f"{only_high}{high} {unit}" if high else ""
