"""Printed tables, judged whole. Sources stand beside the figures in tests/published/limit_tables.py."""

from decimal import Decimal

import pytest

from tests.measurements.sheets import answer, limit_row, sheet, table, verdict
from tests.published import limit_tables as printed


def limits(least_and_greatest, **more):
    return {"new_min": least_and_greatest[0], "new_max": least_and_greatest[1], **more}


PINS = table(
    limit_row("bore", **limits(printed.PISTON_BORE)),
    limit_row("bushing", **limits(printed.BUSHING_BORE, worn="fit")),
    limit_row("pin", **limits(printed.PIN, worn="fit")),
    limit_row("pin in piston", **limits(printed.PRINTED_PIN_IN_PISTON), outer_row="bore", inner_row="pin"),
    limit_row(
        "pin in bushing",
        **limits(printed.PRINTED_PIN_IN_BUSHING, service_max=printed.BUSHING_CLEARANCE_MAXIMUM),
        outer_row="bushing",
        inner_row="pin",
    ),
)


@pytest.mark.parametrize(
    ("fit", "outer", "bore", "expected"),
    [
        ("pin in piston", "bore", printed.PISTON_BORE, printed.PRINTED_PIN_IN_PISTON),
        ("pin in bushing", "bushing", printed.BUSHING_BORE, printed.PRINTED_PIN_IN_BUSHING),
    ],
)
def test_both_pin_fits_follow_from_the_limits_of_the_parts(fit, outer, bore, expected):
    """TM 5-6115-545-34, table 1-2."""
    lines = answer(PINS, sheet(f"{outer},1,{bore[0]} {bore[1]},in,", f"pin,1,{printed.PIN[0]} {printed.PIN[1]},in,")).lines

    (computed,) = (line for line in lines if line["row"] == fit and line["minimum"])
    assert (computed["minimum"], computed["maximum"]) == expected
    assert computed["verdict"] == "within new limits"


@pytest.mark.parametrize(
    ("bushing", "expected"), [("1.5034", "serviceable"), ("1.5036", "serviceable"), ("1.5037", "outside limits")]
)
def test_wear_on_the_fit_is_allowed_on_either_mate(bushing, expected):
    """TM 9-2520-234-35, paragraph 235: two asterisks, the limit is on the fit. Figures: TM 5-6115-545-34, table 1-2."""
    lines = answer(PINS, sheet(f"bushing,1,{bushing},in,", "pin,1,1.5011,in,")).lines

    worn, pin, missing, fit = lines
    assert worn["verdict"] == "not judged"
    assert worn["reason"] == "limit is on the fit: pin in bushing; uncertainty not stated"
    assert pin["verdict"] == "within new limits"
    assert (missing["row"], missing["verdict"]) == ("pin in piston", "not judged")
    assert (fit["row"], fit["verdict"]) == ("pin in bushing", expected)


def test_only_the_misprinted_journal_has_columns_that_disagree():
    """TM 5-4320-300-14, 6-11."""
    rows = [
        limit_row(name, new_min=low, new_max=high, alt_unit="mm", alt_new_min=alt_low, alt_new_max=alt_high)
        for name, (low, high, alt_low, alt_high) in printed.REGRIND_JOURNALS.items()
    ]
    readings = [f"{name},1,{high},in," for name, (_, high, _, _) in printed.REGRIND_JOURNALS.items()]

    answered = answer(table(*rows), sheet(*readings))

    line = 2 + list(printed.REGRIND_JOURNALS).index(printed.MISPRINTED_JOURNAL)
    assert answered.warnings == [
        f"limits.csv:{line}: row “main 0.002”: columns disagree: new_min 2.996 in, alt_new_min 76.124 mm"
    ]
    verdicts = {each["row"]: (each["verdict"], each["reason"]) for each in answered.lines}
    assert verdicts.pop(printed.MISPRINTED_JOURNAL) == ("not judged", "columns disagree")
    assert set(verdicts.values()) == {("within new limits", "uncertainty not stated")}


@pytest.mark.parametrize("name", printed.WEAR_LIMITS)
def test_a_wear_limit_may_lie_on_either_side(name):
    """TM 9-2815-225-34P, appendix F."""
    new_min, new_max, wear = printed.WEAR_LIMITS[name]
    above = Decimal(wear) > Decimal(new_max)
    row = limit_row(name, new_min=new_min, new_max=new_max, rule="simple", **{"service_max" if above else "service_min": wear})
    last_place = Decimal(1).scaleb(-4)
    beyond = Decimal(wear) + (last_place if above else -last_place)
    other_side = Decimal(new_min) - last_place if above else Decimal(new_max) + last_place

    assert verdict(row, f"{new_min} {new_max}") == ("within new limits", "")
    assert verdict(row, wear) == ("serviceable", "")
    assert verdict(row, str(beyond)) == ("outside limits", "")
    assert verdict(row, str(other_side)) == ("outside limits", "")


def test_the_method_of_rounding_decides_at_the_limit():
    """ASTM E29: absolute and rounding method on the limit 2.5 (the example is invented)."""
    assert verdict(limit_row("r", new_max="2.5", rule="simple"), "2.51")[0] == "outside limits"
    assert verdict(limit_row("r", new_max="2.5", rule="simple", basis="rounding", decimals=1), "2.51")[0] == "within new limits"


@pytest.mark.parametrize(("k", "least"), printed.GUARD_BANDS)
def test_a_value_on_the_edge_of_a_guard_band_has_the_published_conformity(k, least):
    """One-sided guard band of k standard uncertainties; u = 0.001 in, so U = 0.002 in."""
    value = f"{2.5 - float(k) / 1000:.6f}"
    (line,) = answer(table(limit_row("r", new_max="2.5")), sheet(f"r,1,{value},in,0.002")).lines

    assert float(line["conformity"]) == pytest.approx(least, abs=5e-7)
    assert line["verdict"] == ("within new limits" if float(k) >= 2 else "too close to call")
