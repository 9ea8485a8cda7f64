"""The judge against the slow oracle, and what must hold for any table and any reading."""

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.measurements.sheets import answer, limit_row, sheet, table
from tests.measurements.strategies import agrees, in_row, readings, rows

ORDER = ["outside limits", "too close to call", "serviceable", "within new limits"]


# Around 0, so that the same figures are near the limits in inches and in millimetres.
@settings(max_examples=400, deadline=None)
@given(st.data())
def test_every_line_agrees_with_the_oracle(data):
    bore = data.draw(rows("bore", centre=2))
    pin = data.draw(rows("pin", centre=0))
    fit = data.draw(rows("fit", centre=2, outer_row="bore", inner_row="pin"))
    on_bore, on_pin = data.draw(readings(centre=2)), data.draw(readings(centre=0))
    typed = [f"{name},1,{' '.join(values)},{unit},{u}" for name, (values, unit, u) in (("bore", on_bore), ("pin", on_pin))]

    lines = answer(table(bore, pin, fit), sheet(*typed)).lines

    agrees(lines[0], bore, *in_row(on_bore, bore), "fit")
    agrees(lines[1], pin, *in_row(on_pin, pin), "fit")
    (outer, outer_u), (inner, inner_u) = in_row(on_bore, fit), in_row(on_pin, fit)
    both = None if outer_u is None or inner_u is None else outer_u + inner_u
    agrees(lines[2], fit, [min(outer) - max(inner), max(outer) - min(inner)], both, "fit")


@st.composite
def two_sided(draw):
    """Both new limits, and a service limit on either side or none: a band with a middle.

    New limits that are one figure have a middle only where wear is allowed on both sides or on none: elsewhere that figure is
    the last good one, and a value that moves off it into the wear does become more certain.
    """
    half = draw(st.integers(0, 4))
    wear_below, wear_above = draw(st.one_of(st.none(), st.integers(0, 3))), draw(st.one_of(st.none(), st.integers(0, 3)))
    assume(half or bool(wear_below) == bool(wear_above))
    return limit_row(
        "r",
        new_min=f"-0.00{half}",
        new_max=f"0.00{half}",
        service_min="" if wear_below is None else f"-0.00{half + wear_below}",
        service_max="" if wear_above is None else f"0.00{half + wear_above}",
        rule=draw(st.sampled_from(["", "simple"])),
    )


@settings(max_examples=200, deadline=None)
@given(two_sided(), st.integers(0, 80), st.integers(0, 40), st.sampled_from([1, -1]), st.sampled_from(["", "0.001", "0.0002"]))
def test_moving_away_from_the_band_never_improves_a_verdict(row, tenths, further, side, u):
    typed = [f"r,1,{side * tenths / 10000:.4f},in,{u}", f"r,1,{side * (tenths + further) / 10000:.4f},in,{u}"]
    near_line, far_line = answer(table(row), sheet(*typed)).lines

    if near_line["reason"] == "gauge cannot decide this":
        assert far_line["verdict"] in ("outside limits", "not judged")
    else:
        assert ORDER.index(far_line["verdict"]) <= ORDER.index(near_line["verdict"])


@settings(max_examples=200, deadline=None)
@given(rows("r", centre=0, unit="in"), readings(centre=0))
def test_a_stated_uncertainty_never_turns_outside_into_good(row, reading):
    """Where values are not rounded: by the rounding method a stated U that brings the guard rule looks at unrounded values."""
    values, unit, _ = reading
    row = {**row, "rule": "", "basis": "absolute"}
    without, stated = answer(table(row), sheet(f"r,1,{' '.join(values)},{unit},", f"r,1,{' '.join(values)},{unit},0.0005")).lines
    if without["verdict"] == "outside limits":
        assert stated["verdict"] in ("outside limits", "too close to call", "not judged")
    if stated["verdict"] == "within new limits":
        assert without["verdict"] == "within new limits"
