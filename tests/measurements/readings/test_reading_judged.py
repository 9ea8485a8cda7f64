"""A reading judged by its row: the same verdict as the judge of files, published figures, and what U is made of."""

import io
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import uniform

from measurements.judge import read_limits
from measurements.metrology.limits import LimitRow
from measurements.readings.fitting import judge_fit
from measurements.readings.judging import Read, Warmth, judge_reading
from measurements.readings.points import Point
from measurements.readings.uncertainty import gauge_u_squared, root_text
from tests.measurements.sheets import answer, sheet, table
from tests.measurements.strategies import agrees, in_row, readings, rows
from tests.published import limit_tables as printed

BETTER = ["outside limits", "too close to call", "serviceable", "within new limits"]


def row_of(**limits):
    figures = {name: Decimal(text) if name.endswith(("min", "max")) else text for name, text in limits.items()}
    return LimitRow(**{"row": "r", "part": "part", "characteristic": "size", "unit": "in"} | figures)


def read_of(*values, unit="in", u="0", **more):
    return Read([Point(str(place), "", value) for place, value in enumerate(values)], unit, Fraction(u or 0) ** 2, **more)


def exact_rows(*typed):
    return read_limits(io.StringIO(table(*typed), newline=""), "limits.csv", warn=lambda sentence: None)


def alike(judged, line):
    """The verdict, its reason and every figure; the conformity, which is a float, nearly."""
    conformity, expected = judged.conformity, line["conformity"]
    assert judged._replace(conformity="")._asdict() == {name: line[name] for name in judged._fields} | {"conformity": ""}
    assert bool(conformity) == bool(expected)
    assert float(conformity or 0) == pytest.approx(float(expected or 0), abs=1e-12)


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_reading_and_a_fit_get_the_verdict_of_the_judge_of_files_and_of_the_oracle(data):
    bore, pin = data.draw(rows("bore", centre=2)), data.draw(rows("pin", centre=0))
    fit = data.draw(rows("fit", centre=2, outer_row="bore", inner_row="pin"))
    typed = {"bore": data.draw(readings(centre=2)), "pin": data.draw(readings(centre=0))}
    reads = {name: read_of(*values, unit=unit, u=u) for name, (values, unit, u) in typed.items()}
    exact = exact_rows(bore, pin, fit)

    judged = [judge_reading(exact[name], reads[name], ["fit"]) for name in ("bore", "pin")]
    judged.append(judge_fit(exact["fit"], reads["bore"], reads["pin"]))

    on_sheet = [f"{name},1,{' '.join(values)},{unit},{u}" for name, (values, unit, u) in typed.items()]
    for mine, line in zip(judged, answer(table(bore, pin, fit), sheet(*on_sheet)).lines, strict=True):
        alike(mine, line)
    for mine, row in zip(judged, (bore, pin), strict=False):
        agrees(mine._asdict(), row, *in_row(typed[row["row"]], row), "fit")


@pytest.mark.parametrize("name", printed.WEAR_LIMITS)
def test_a_wear_limit_may_lie_on_either_side(name):
    """TM 9-2815-225-34P, appendix F."""
    new_min, new_max, wear = printed.WEAR_LIMITS[name]
    above = Decimal(wear) > Decimal(new_max)
    row = row_of(new_min=new_min, new_max=new_max, rule="simple", **{"service_max" if above else "service_min": wear})
    beyond = str(Decimal(wear) + Decimal("0.0001") * (1 if above else -1))

    assert judge_reading(row, read_of(new_min, new_max)).verdict == "within new limits"
    assert judge_reading(row, read_of(new_min if above else new_max, wear)).verdict == "serviceable"
    assert judge_reading(row, read_of(new_min, beyond)).verdict == "outside limits"


@pytest.mark.parametrize(("value", "u", "least", "greatest", "probability"), printed.CONFORMITIES)
def test_the_probability_of_conformity_is_the_published_one(value, u, least, greatest, probability):
    """JCGM 106, 7.2 to 7.4."""
    limits = {"new_min": least, "new_max": greatest}
    row = row_of(**{name: limit for name, limit in limits.items() if limit})
    judged = judge_reading(row, read_of(value, u=str(2 * Decimal(u))))
    assert float(judged.conformity) == pytest.approx(probability, abs=5e-5)


@pytest.mark.parametrize(
    ("value", "verdict"),
    [
        ("2.4998", "within new limits"),
        ("2.49980000000000000000000000001", "too close to call"),
        ("2.5", "too close to call"),
        ("2.5002", "too close to call"),
        ("2.50020000000000000000000000001", "outside limits"),
    ],
)
def test_the_guard_band_ends_exactly_at_u(value, verdict):
    """ISO 14253-1 with U = 0.0002 in exactly: calibration 0.0001, step 0.0003, and 0.0001² + 0.0003²/3 = 0.0002²."""
    squared = gauge_u_squared("0.0001", "0.0003", "in", "in")
    assert squared == Fraction("0.0002") ** 2
    assert judge_reading(row_of(new_max="2.5"), replace(read_of(value), u_squared=squared)).verdict == verdict


@pytest.mark.parametrize(
    ("calibration", "step", "unit"), [("0.00012", "0.0001", "in"), ("0.0001", "0.01", "mm"), ("3", "1", "um")]
)
def test_the_step_of_the_gauge_adds_its_share(calibration, step, unit):
    """JCGM 100, F.2.2.1: a step is spread evenly; SciPy's uniform distribution is the oracle, at k = 2."""
    expected = 2 * sqrt((float(calibration) / 2) ** 2 + uniform(scale=float(step)).var())
    assert sqrt(gauge_u_squared(calibration, step, unit, unit)) == pytest.approx(expected, rel=1e-12)
    in_inches = gauge_u_squared(calibration, step, "mm", "in")
    assert in_inches == gauge_u_squared(calibration, step, "mm", "mm") / Fraction("25.4") ** 2


@given(st.fractions(min_value=Fraction(1, 10**18), max_value=10**12))
def test_u_is_shown_rounded_up_in_four_digits(squared):
    shown = Fraction(root_text(squared))
    assert squared <= shown**2
    assert shown <= Fraction(1001, 1000) * Fraction(sqrt(squared))


@settings(max_examples=200, deadline=None)
@given(rows("r", centre=0, unit="in"), readings(centre=0), st.integers(1, 30), st.integers(0, 30))
def test_a_worse_gauge_never_betters_a_verdict_nor_throws_a_good_part_out(row, reading, tenths, more):
    (exact,) = exact_rows({**row, "rule": "guard"}).values()
    values, unit, _ = reading
    good, worse = (judge_reading(exact, read_of(*values, unit=unit, u=f"0.{u:05d}")).verdict for u in (tenths, tenths + more))
    if good in BETTER and worse in BETTER and good != "outside limits":
        assert BETTER.index(worse) <= BETTER.index(good)
        assert worse != "outside limits"


@given(st.lists(st.integers(24_000, 26_000), min_size=2, max_size=5), st.integers(24_000, 26_000))
def test_another_point_never_betters_a_verdict(readings_before, further):
    row = row_of(new_min="2.4983", new_max="2.5013", service_max="2.5023", rule="simple")
    values = [f"{each / 10_000:.4f}" for each in (*readings_before, further)]
    before, after = judge_reading(row, read_of(*values[:-1])).verdict, judge_reading(row, read_of(*values)).verdict
    assert BETTER.index(after) <= BETTER.index(before)


def test_a_barred_gauge_decides_nothing_whatever_it_showed():
    row = row_of(new_min="2", new_max="3", rule="simple")
    for value in ("2.5", "9"):
        judged = judge_reading(row, read_of(value, barred="the gauge had no calibration"))
        assert (judged.verdict, judged.reason, judged.conformity) == ("not judged", "the gauge had no calibration", "")
        assert judged.minimum == value


@pytest.mark.parametrize(
    ("gauge_coefficient", "at_20", "verdict"), [("0", "99.9885", "within new limits"), ("0.0000115", "100", "outside limits")]
)
def test_a_warm_part_is_judged_as_it_is_at_20(gauge_coefficient, at_20, verdict):
    """ISO 1; steel of 11.5e-6 per kelvin (from memory), 10 K above: 100 mm shrink by 0.0115 mm, unless the gauge grew too."""
    warmth = Warmth(Fraction(30), Fraction("0.0000115"), Fraction(gauge_coefficient))
    judged = judge_reading(row_of(unit="mm", new_max="99.99", rule="simple"), read_of("100.000", unit="mm", warmth=warmth))
    assert (judged.minimum, judged.verdict) == (at_20, verdict)
