"""Selection: the choices themselves, properties against plain search, and refusals."""

from decimal import Decimal
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.errors import BadFigure, BadLimits, MixedDimensions, NoAnswer, NothingGiven
from measurements.metrology.limits import LimitRow
from measurements.metrology.selection.oil_pressure import Setting, expected_pressures, setting_for, turns_for
from measurements.metrology.selection.push_rods import clearances, push_rod_for
from measurements.metrology.selection.ring_gap import filing, gap_in_bore
from measurements.metrology.selection.shims import ShimRange, for_backlash, for_end_play, shims_for
from measurements.metrology.selection.valve_spring import (
    from_free_length,
    from_two_points,
    judge_load,
    rate_of_wire,
)
from measurements.metrology.verdicts import Verdict

NAN = Decimal("NaN")
RODS = {"short": Decimal("10.97"), "standard": Decimal(11), "long": Decimal("11.03")}
SETTINGS = [
    Setting("plain", "A", 0, 0, Decimal(60)),
    Setting("one washer", "A", 1, 0, Decimal(66)),
    Setting("two washers", "A", 2, 0, Decimal(72)),
    Setting("stiff", "B", 0, 0, Decimal(85)),
]


def D(text):
    return Decimal(text)


def test_a_rod_within_limits_stays_and_a_longer_one_closes_the_gap():
    assert push_rod_for(D("0.079"), "standard", RODS, D("0.028"), D("0.080")).name == "standard"
    chosen = push_rod_for(D("0.090"), "standard", RODS, D("0.028"), D("0.080"), D("1.2"))
    assert (chosen.name, chosen.clearance) == ("long", Fraction("0.054"))
    assert push_rod_for(D("0.020"), "standard", RODS, D("0.028"), D("0.080")).name == "short"
    with pytest.raises(NoAnswer, match=r"long, the nearest, would leave 0\.17"):
        push_rod_for(D("0.200"), "standard", RODS, D("0.028"), D("0.080"))


@given(st.fractions(0, 1), st.sampled_from(sorted(RODS)), st.sampled_from(sorted(RODS)), st.fractions(Fraction(1, 2), 2))
def test_reading_again_with_the_chosen_rod_gives_the_clearance_that_was_foretold(read, fitted, other, ratio):
    foretold = {rod.name: rod.clearance for rod in clearances(read, fitted, RODS, ratio)}
    assert foretold[fitted] == read
    if foretold[other] >= 0:
        again = {rod.name: rod.clearance for rod in clearances(foretold[other], other, RODS, ratio)}
        assert again == foretold


boxes = st.dictionaries(st.integers(1, 40), st.integers(0, 2), min_size=1, max_size=4)


@given(boxes, st.integers(0, 90), st.integers(0, 5))
def test_no_pack_in_the_box_is_nearer_and_none_as_near_has_fewer_shims(box, wanted, room):
    def key(counts):
        total = sum(size * count for size, count in zip(box, counts, strict=True))
        return abs(total - wanted), sum(counts)

    every = [counts for counts in product(*(range(count + 1) for count in box.values())) if sum(counts) <= 5]
    best = min(every, key=key)
    asked = ShimRange(Fraction(wanted - room), Fraction(wanted), Fraction(wanted + room))
    if key(best)[0] > room:
        with pytest.raises(NoAnswer):
            shims_for(asked, box)
    else:
        found = shims_for(asked, box)
        assert (abs(found.total - wanted), len(found.shims)) == key(best)
        assert all(found.shims.count(size) <= box[size] for size in found.shims)


@given(
    st.fractions(0, 2), st.fractions(0, 1), st.fractions(0, 1), st.fractions(0, 1), st.sampled_from([1, -1, 2, Fraction(1, 2)])
)
def test_shims_of_the_wanted_thickness_bring_the_backlash_to_the_middle(read, one, other, fitted, share):
    low, high = sorted((one, other))
    try:
        found = for_backlash(read, low, high, fitted, share)
    except NoAnswer:
        return
    assert read - (found.wanted - fitted) * share == (low + high) / 2
    for end in (found.greatest, found.least):
        if end:
            assert read - (end - fitted) * share in (low, high)


def test_end_play_with_shims_from_the_box():
    asked = for_end_play(D("0.031"), D("0.004"), D("0.010"))
    assert (asked.least, asked.wanted, asked.greatest) == (Fraction("0.021"), Fraction("0.024"), Fraction("0.027"))
    found = shims_for(asked, {D("0.002"): 4, D("0.005"): 3, D("0.010"): 2})
    assert (found.shims, found.total) == (
        (Fraction("0.01"), Fraction("0.01"), Fraction("0.002"), Fraction("0.002")),
        asked.wanted,
    )


def test_limited_shims_do_not_hide_a_pack_made_of_others():
    """Five is four and one or three and two: only the second leaves the four for the nine that is wanted."""
    assert shims_for(ShimRange(Fraction(9), Fraction(9), Fraction(9)), {4: 1, 3: 1, 2: 1, 1: 1}).shims == (4, 3, 2)


def test_only_permitted_settings_are_offered():
    assert setting_for(62, "plain", SETTINGS, 60, 90).setting.name == "plain"
    chosen = setting_for(55, "plain", SETTINGS, 60, 90)
    assert (chosen.setting.name, chosen.expected) == ("stiff", 80)
    with pytest.raises(NoAnswer, match="not a permitted combination"):
        setting_for(55, "three washers", SETTINGS, 60, 90)
    with pytest.raises(NoAnswer, match="stiff comes nearest with 45"):
        setting_for(20, "plain", SETTINGS, 60, 90)


@given(st.fractions(0, 100), st.sampled_from(SETTINGS), st.sampled_from(SETTINGS))
def test_going_to_a_setting_and_back_expects_the_same_pressure(read, there, back):
    expected = {choice.setting.name: choice.expected for choice in expected_pressures(read, back.name, SETTINGS)}
    assert expected[back.name] == read
    assert expected[there.name] - read == Fraction(there.pressure) - Fraction(back.pressure)


def test_turns_of_the_screw():
    assert turns_for(55, 70, 10, 1, 4) == Fraction("1.5")
    assert turns_for(75, 70, 10, 1, 4) == Fraction("-0.5")
    with pytest.raises(NoAnswer):
        turns_for(55, 90, 10, 1, 4)


@given(st.fractions(0, 1), st.fractions(0, 1), st.fractions(0, 1))
def test_a_ring_filed_by_either_end_comes_out_on_a_limit_or_stays(gap, one, other):
    low, high = sorted((one, other))
    if gap > high:
        with pytest.raises(NoAnswer, match="metal cannot be put back"):
            filing(gap, low, high)
    else:
        found = filing(gap, low, high)
        assert gap + found.greatest == high
        assert gap + found.least == max(low, gap)


lengths = st.fractions(Fraction(1, 2), 3, max_denominator=1000)


@given(lengths, lengths, st.fractions(1, 200, max_denominator=100), st.fractions(0, 100, max_denominator=100))
def test_a_spring_passes_through_its_points(one, other, more, less):
    short, long = sorted((one, other))
    if short == long:
        return
    spring = from_two_points({long: less, short: less + more})
    assert (spring.load_at(short), spring.load_at(long)) == (less + more, less)
    assert spring.length_at(less) == long
    assert spring.load_at(spring.free_length) == 0


@pytest.mark.parametrize(("load", "verdict"), [("57.9", Verdict.OUTSIDE), ("58", Verdict.SERVICEABLE)])
def test_a_load_read_a_little_long_is_moved_to_the_stated_length(load, verdict):
    row = LimitRow(row="1", part="spring", characteristic="load", unit="lbf", rule="simple", service_min=Decimal(60))
    assert judge_load(D(load), D("1.42"), D("1.40"), 100, row).verdict == verdict


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: push_rod_for(D("0.05"), "a", {}, 0, 1), NothingGiven),
        (lambda: push_rod_for(D("0.05"), "a", RODS, 0, 1), NoAnswer),
        (lambda: push_rod_for(-1, "long", RODS, 0, 1), BadFigure),
        (lambda: push_rod_for(NAN, "long", RODS, 0, 1), BadFigure),
        (lambda: push_rod_for(0, "long", RODS, 1, 0), BadLimits),
        (lambda: push_rod_for(0, "long", RODS, -1, 0), BadLimits),
        (lambda: push_rod_for(0, "long", RODS, 0, 1, 0), BadFigure),
        (lambda: for_end_play(D("0.003"), D("0.004"), D("0.010")), NoAnswer),
        (lambda: for_end_play(D("0.03"), D("0.010"), D("0.004")), BadLimits),
        (lambda: for_backlash(1, 0, 1, 0, 0), BadFigure),
        (lambda: for_backlash(D("Infinity"), 0, 1, 0, 1), BadFigure),
        (lambda: shims_for(ShimRange(Fraction(), Fraction(), Fraction()), {}), NothingGiven),
        (lambda: shims_for(ShimRange(Fraction(), Fraction(), Fraction()), {0: 1}), BadFigure),
        (lambda: shims_for(ShimRange(Fraction(), Fraction(), Fraction()), {1: -1}), BadFigure),
        (lambda: shims_for(ShimRange(Fraction(), Fraction(), Fraction()), {1: 1}, most=6), BadFigure),
        (lambda: shims_for(ShimRange(Fraction(), Fraction(), Fraction()), dict.fromkeys(range(1, 26), 1)), BadFigure),
        (lambda: setting_for(55, "plain", [], 60, 90), NothingGiven),
        (lambda: setting_for(55, "plain", [*SETTINGS, SETTINGS[0]], 60, 90), MixedDimensions),
        (lambda: setting_for(-5, "plain", SETTINGS, 60, 90), BadFigure),
        (lambda: setting_for(55, "plain", SETTINGS, 90, 60), BadLimits),
        (lambda: turns_for(55, 60, 0, 0, 4), BadFigure),
        (lambda: filing(-1, 0, 1), BadFigure),
        (lambda: filing(0, 2, 1), BadLimits),
        (lambda: gap_in_bore(0.001, 5.128, 5.125), NoAnswer),
        (lambda: gap_in_bore(float("nan"), 5, 5), BadFigure),
        (lambda: from_two_points({1: 50}), NothingGiven),
        (lambda: from_two_points({1: 50, 2: 50}), BadFigure),
        (lambda: from_free_length(1, 2, 50), BadFigure),
        (lambda: from_free_length(2, 1, 50).load_at(3), BadFigure),
        (lambda: from_free_length(2, 1, 50).length_at(100), BadFigure),
        (lambda: rate_of_wire(1, 1, 5, 10**7), BadFigure),
        (lambda: rate_of_wire(D("0.1"), 1, 0, 10**7), BadFigure),
    ],
)
def test_nonsense_is_refused_by_name(ask, error):
    with pytest.raises(error):
        ask()
