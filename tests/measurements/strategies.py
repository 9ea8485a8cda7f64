"""Rows, readings and the slow oracle's opinion of them, for every property of the judge."""

from fractions import Fraction

import pytest
from hypothesis import strategies as st

from tests.measurements import oracle
from tests.measurements.sheets import limit_row

UNITS = st.sampled_from(["in", "mm"])


@st.composite
def rows(draw, name, centre, unit=None, **fixed):
    """A row with ordered limits about `centre` thousandths; few steps, so that readings meet them often."""
    steps = sorted(draw(st.lists(st.integers(-4, 4), min_size=4, max_size=4)))
    limits = dict(zip(("service_min", "new_min", "new_max", "service_max"), steps, strict=True))
    given_limits = {
        side: f"{(centre + step) / 1000:.{draw(st.integers(3, 5))}f}" for side, step in limits.items() if draw(st.booleans())
    }
    basis = draw(st.sampled_from(["", "absolute", "rounding"]))
    return limit_row(
        name,
        unit=unit or draw(UNITS),
        worn=draw(st.sampled_from(["", "new", "fit"])),
        rule=draw(st.sampled_from(["", "simple", "guard"])),
        basis=basis,
        decimals=draw(st.integers(1, 3)) if basis == "rounding" else "",
        **given_limits,
        **fixed,
    )


@st.composite
def readings(draw, centre):
    """(values as text, unit, U as text) about `centre` thousandths of a millimetre's or an inch's row."""
    unit = draw(UNITS)
    finer = draw(st.sampled_from([1, 2, 10]))
    shown = {1: 3, 2: 4, 10: 4}[finer]
    values = [
        f"{(centre * finer + draw(st.integers(-6 * finer, 6 * finer))) / (1000 * finer):.{shown}f}"
        for _ in range(draw(st.integers(1, 3)))
    ]
    return values, unit, draw(st.sampled_from(["", "0", "0.001", "0.002", "0.0005", "0.00025"]))


def in_row(reading, row):
    values, unit, u = reading
    converted = [oracle.in_unit(value, unit, row["unit"]) for value in values]
    u_squared = oracle.in_unit(u, unit, row["unit"]) ** 2 if u and Fraction(u) else None
    return converted, u_squared


def near(text, exact):
    return abs(Fraction(text) - exact) <= abs(exact) * Fraction(1, 10**12)


def agrees(line, row, values, u_squared, fits):
    assert (line["verdict"], line["reason"]) == oracle.verdict(row, values, u_squared, fits)
    assert near(line["minimum"], min(values))
    assert near(line["maximum"], max(values))
    expected = oracle.conformity(row, values, u_squared)
    if expected is None:
        assert line["conformity"] == ""
    else:
        assert float(line["conformity"]) == pytest.approx(expected, abs=1e-9)
