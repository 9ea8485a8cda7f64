"""Verdicts in columns against the exact verdict of each, on boundaries and for any row."""

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from measurements.judge.scales import Typed, scale_for
from measurements.metrology.errors import MeasureError
from measurements.metrology.limits import Criterion, LimitRow
from measurements.metrology.many import BLOCK, GREATEST, JUDGEMENTS, SMALL, at_scale, judge_many
from measurements.metrology.units import ratio
from measurements.metrology.verdicts import judge

NEAR = st.integers(-12, 12)
OPEN = Criterion(None, None, None, None, None, None, "", 0, columns_disagree=False)
BAND = OPEN._replace(new_min=-3, new_max=3, low=-5, high=5, rule="simple")


@st.composite
def criteria(draw):
    """Any criterion whose limits stand in order; the effective ones made of them as `limits.criterion` does."""
    low, new_min, new_max, high = sorted(draw(st.lists(NEAR, min_size=4, max_size=4)))
    given_limits = [limit if draw(st.booleans()) else None for limit in (low, new_min, new_max, high)]
    low, new_min, new_max, high = given_limits
    on_fit = draw(st.booleans())
    return Criterion(
        new_min=new_min,
        new_max=new_max,
        low=low if low is not None or on_fit else new_min,
        high=high if high is not None or on_fit else new_max,
        wear_min=new_min if on_fit and low is None else None,
        wear_max=new_max if on_fit and high is None else None,
        rule=draw(st.sampled_from(["", "simple", "guard"])),
        step=draw(st.sampled_from([0, 2, 10])),
        columns_disagree=draw(st.integers(0, 9)) == 0,
    )


readings = st.lists(st.tuples(NEAR, st.integers(0, 6), st.integers(0, 7)), min_size=1, max_size=30)


@settings(max_examples=200, deadline=None)
@given(criteria(), readings)
@example(BAND._replace(rule="guard"), [(-5, 0, 0), (-5, 10, 5), (-6, 0, 1), (-6, 0, 0), (5, 0, 5), (3, 0, 2)])
@example(BAND._replace(step=10), [(5, 0, 0), (-15, 0, 0), (15, 0, 0), (25, 0, 0)])
def test_every_code_is_the_exact_verdict(held, read):
    least, greatest, us = (np.array(column) for column in zip(*((low, low + more, u) for low, more, u in read), strict=True))

    codes = judge_many(least, greatest, held, us)

    exact = [judge(int(low), int(high), held, int(u) ** 2) for low, high, u in zip(least, greatest, us, strict=True)]
    assert [JUDGEMENTS[code] for code in codes] == exact
    alone = [judge_many(least, greatest, held, u) for u in us]
    assert [codes_of_one[place] for place, codes_of_one in enumerate(alone)] == list(codes)


@settings(max_examples=200, deadline=None)
@given(criteria(), NEAR, st.integers(0, 12), st.integers(0, 60))
def test_of_two_values_the_heavier_judgement_is_that_of_both(held, least, more, u_squared):
    greatest = least + more

    heavier = max((judge(value, value, held, u_squared) for value in (least, greatest)), key=JUDGEMENTS.index)

    assert judge(least, greatest, held, u_squared) == heavier


@settings(max_examples=100, deadline=None)
@given(st.integers(2_4970, 2_5010), st.integers(-2, 2), st.sampled_from(["", "simple", "guard"]))
def test_millimetres_meet_inches_on_the_very_limit(ten_thousandths, away, rule):
    """A limit in inches, the same length in millimetres to six decimals, and one or two millionths to either side."""
    limit = Decimal(ten_thousandths).scaleb(-4)
    row = LimitRow(row="r", part="", characteristic="", unit="in", new_min=limit, service_min=limit, rule=rule)
    scale = scale_for(row, [Typed("mm", 6, 6)])
    exactly = Fraction(limit) * ratio("in", "mm") * 10**6 + away
    assert exactly.denominator == 1
    typed = [exactly.numerator] * 2
    u = 2 * scale.uncertainties[0]

    codes = judge_many(at_scale(typed, scale.values[0]), at_scale(typed, scale.values[0]), scale.held, u)

    value = exactly.numerator * scale.values[0]
    assert {JUDGEMENTS[code] for code in codes} == {judge(value, value, scale.held, u * u)}


def test_a_long_column_is_judged_block_by_block():
    values = np.arange(-100_000, 100_000)

    codes = judge_many(values, values, BAND)

    assert [JUDGEMENTS[code].verdict for code in codes[99_993:100_008]] == [
        *(["outside limits"] * 2 + ["serviceable"] * 2 + ["within new limits"] * 7),
        *(["serviceable"] * 2 + ["outside limits"] * 2),
    ]
    assert len(codes) == len(values)


@settings(max_examples=200, deadline=None)
@given(criteria(), readings, st.sampled_from([SMALL - 6, -SMALL + 6, 2**31, 2**32, -(2**32), GREATEST - 30]), st.booleans())
def test_figures_too_long_for_32_bits_are_judged_as_exactly(held, read, away, only_the_last):
    """Limits and readings far from zero; or the last reading only, which then is far outside, in one block with small ones."""
    moved = Criterion(*(limit if limit is None or only_the_last else limit + away for limit in held[:6]), *held[6:])
    aways = [0 if only_the_last and place < len(read) - 1 else away for place in range(len(read))]
    least = [low + off for (low, _, _), off in zip(read, aways, strict=True)]
    greatest = [low + more for low, (_, more, _) in zip(least, read, strict=True)]
    us = [u for _, _, u in read]

    codes = judge_many(least, greatest, moved, us)

    exact = [judge(low, high, moved, u**2) for low, high, u in zip(least, greatest, us, strict=True)]
    assert [JUDGEMENTS[code] for code in codes] == exact


@pytest.mark.parametrize("u", [SMALL - 1, SMALL, 2**31, GREATEST])
def test_a_long_uncertainty_is_no_short_one(u):
    held = BAND._replace(rule="guard")

    for stated in (u, [u, u]):
        assert [JUDGEMENTS[code] for code in judge_many([0, 9], [0, 9], held, stated)] == [judge(0, 0, held, u * u)] * 2


def test_one_long_figure_leaves_the_other_blocks_alone():
    values = np.zeros(3 * BLOCK, np.int64)
    values[BLOCK + 1] = 2**32

    codes = judge_many(values, values, BAND)

    assert [JUDGEMENTS[code].verdict for code in codes[[0, BLOCK, BLOCK + 1, -1]]] == [
        *("within new limits", "within new limits", "outside limits", "within new limits")
    ]


def test_nothing_read_is_nothing_said():
    assert judge_many(np.array([], dtype=np.int64), np.array([], dtype=np.int64), BAND).tolist() == []


@pytest.mark.parametrize(
    ("least", "greatest", "held", "u"),
    [
        ([1.5], [1.5], BAND, 0),
        ([float("nan")], [1], BAND, 0),
        ([10**6000], [10**6000], BAND, 0),
        ([GREATEST + 1], [GREATEST + 1], BAND, 0),
        (np.array([2**63], dtype=np.uint64), np.array([2**63], dtype=np.uint64), BAND, 0),
        (["1"], ["1"], BAND, 0),
        ([True], [True], BAND, 0),
        ([1, 2], [1], BAND, 0),
        ([[1]], [[1]], BAND, 0),
        ([2], [1], BAND, 0),
        ([2**32], [5], BAND, 0),
        ([-5], [-(2**32)], BAND, 0),
        ([1, 2], [1, 2], BAND, [1, 2, 3]),
        ([1], [1], BAND, -1),
        ([1], [1], BAND, 0.5),
        ([1], [1], BAND, GREATEST + 1),
        ([1], [1], BAND._replace(high=GREATEST + 1), 0),
        ([1], [1], BAND._replace(step=GREATEST + 1), 0),
    ],
)
def test_nonsense_is_refused(least, greatest, held, u):
    with pytest.raises(MeasureError):
        judge_many(least, greatest, held, u)


def test_a_scale_that_would_overflow_is_refused():
    with pytest.raises(MeasureError):
        at_scale([10**12], 10**8)
