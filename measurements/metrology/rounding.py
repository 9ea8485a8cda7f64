"""Rounding as ASTM E29 asks: to the nearest, a tie to the even digit. Integers only, so a tie is a tie."""


def divide_half_even(numerator: int, denominator: int) -> int:
    """The whole number nearest the ratio, a tie to the even one. `denominator` is positive; ZeroDivisionError at 0."""
    whole, rest = divmod(numerator, denominator)
    twice = 2 * rest
    return whole + (twice > denominator or (twice == denominator and whole & 1))


def to_step(value: int, step: int) -> int:
    """The multiple of `step` nearest `value`, a tie to the even multiple (ASTM E29, rounding method).

    Both in the same unit and scale, `step` positive: one unit of the last decimal kept, or 50 to round to fifties.
    """
    return divide_half_even(value, step) * step
