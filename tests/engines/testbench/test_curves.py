"""Curves lie inside their frame, and no name at the end of a line covers another."""

from datetime import UTC, datetime, timedelta
from fractions import Fraction
from itertools import pairwise

from engines.testbench.curves import BOTTOM, LEFT, LETTER, RIGHT, TOP, drawings
from engines.testbench.schedule import Schedule, Spot
from engines.testbench.standing import Facts, Read, Span, Standing
from tests.making_packs import small_pack, with_run

BEGAN = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)


def drawn(*rows, channel="cylinder temperature"):
    """One drawing of values for each cylinder, a minute apart."""
    reads = [
        Read("full", Spot(channel, cylinder), Fraction(value), value, "°F", BEGAN + timedelta(minutes=minute))
        for cylinder, values in enumerate(rows, start=1)
        for minute, value in enumerate(values)
    ]
    facts = Facts(now=BEGAN + timedelta(minutes=9), spans=[Span("full", BEGAN, None)], reads=reads)
    return drawings(Standing(Schedule(with_run(small_pack())), facts))


def test_every_point_lies_inside_the_frame_also_beyond_its_limits():
    (drawing,) = drawn(["300", "700"], ["450", "450"])
    points = [tuple(map(float, point.split(","))) for curve in drawing.curves for point in curve.points.split()]
    assert all(LEFT <= across <= RIGHT and TOP <= down <= BOTTOM for across, down in points)
    assert [mark.text for mark in drawing.limits] == ["most 450", "end 500"]
    assert drawing.sentence == "cylinder temperature, °F: from 300 to 700 over 1 minutes."


def test_names_at_the_ends_stand_apart_and_lines_differ_by_their_dashes():
    (drawing,) = drawn(["400", "410"], ["401", "410"], ["402", "410.5"])
    ends = sorted(curve.end_y for curve in drawing.curves)
    assert all(below - above >= LETTER for above, below in pairwise(ends))
    assert len({curve.dashes for curve in drawing.curves}) == 3


def test_what_was_read_once_is_not_drawn():
    assert drawn(["400"]) == []


def test_a_value_that_never_moves_is_drawn():
    assert len(drawn(["400", "400"])) == 1
