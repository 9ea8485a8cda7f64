"""Regrind plans beyond the published tables (tests/published/regrinds.py): bent shafts, policies, reasons, orders, nonsense."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.metrology.errors import BadFigure, BadLimits, MeasureError, NothingGiven
from measurements.metrology.regrind.classes import Kind, SizeClass, in_order
from measurements.metrology.regrind.plan import Outcome, plan
from measurements.metrology.regrind.refusals import Reason
from measurements.metrology.regrind.rules import Policy, Rules
from measurements.metrology.regrind.surface import Surface, surface_from_planes
from measurements.metrology.regrind.taking import clean_up_size


def D(text):
    return Decimal(text)


def shaft(name, least, greatest=None, runout="0", **form):
    return Surface(name=name, least=D(least), greatest=D(greatest or least), runout=D(runout), **form)


# Invented sizes of an invented engine.
STANDARD = SizeClass(name="standard", least=D("2.000"), greatest=D("2.001"), ground=False, order="S")
SLIGHT = SizeClass(name="0.002", least=D("1.998"), greatest=D("1.999"), ground=False, order="S2")
TEN = SizeClass(name="0.010", least=D("1.990"), greatest=D("1.991"), order="S10", follows=("fillet radius",))
TWENTY = SizeClass(name="0.020", least=D("1.980"), greatest=D("1.981"), order="S20", follows=("fillet radius", "harden again"))
CLASSES = [TWENTY, STANDARD, TEN, SLIGHT]


def test_a_bowed_journal_is_told_from_a_worn_one():
    worn = plan([shaft("1", "1.9895")], CLASSES, Rules())
    bowed = plan([shaft("1", "1.9975", runout="0.0080")], CLASSES, Rules())
    assert [one.reason for one in (worn.refusals[-1], bowed.refusals[-1])] == [Reason.WORN, Reason.BOWED]
    assert [one.by for one in (worn.refusals[-1], bowed.refusals[-1])] == [Fraction("0.0005"), Fraction("0.0005")]
    assert worn.works[0].size_class == bowed.works[0].size_class == TWENTY
    assert bowed.refusals[-1].sentence == "1, class 0.010: would clean up but for its run-out by 0.0005."


def test_run_out_beyond_its_limit_has_no_plan_whatever_else_would_fit():
    rules = Rules(most_runout=D("0.004"))
    found = plan([shaft("1", "2.0005"), shaft("2", "2.0005", runout="0.0041")], CLASSES, rules)
    assert (found.outcome, found.works, found.orders) == (Outcome.REJECT, (), ())
    assert [(one.surface, one.reason, one.by) for one in found.refusals] == [("2", Reason.RUN_OUT, Fraction("0.0001"))]
    assert plan([shaft("2", "2.0005", runout="0.0040")], CLASSES, rules).outcome is Outcome.AS_IT_STANDS


@pytest.mark.parametrize(
    ("policy", "classes", "ground"),
    [
        (Policy.EACH, ["standard", "0.010", "0.002"], [False, True, False]),
        (Policy.GROUND_ALIKE, ["0.010", "0.010", "0.010"], [True, True, True]),
        (Policy.ALIKE, ["0.010", "0.010", "0.010"], [True, True, True]),
    ],
)
def test_the_policy_of_the_group_decides(policy, classes, ground):
    journals = [shaft("1", "2.0005"), shaft("2", "1.9979"), shaft("3", "1.9985")]
    found = plan(journals, CLASSES, Rules(policy=policy))
    assert [one.size_class.name for one in found.works] == classes
    assert [one.ground for one in found.works] == ground


def test_where_none_is_ground_only_all_alike_asks_for_one_size():
    journals = [shaft("1", "2.0005"), shaft("2", "1.9985")]
    assert plan(journals, CLASSES, Rules(policy=Policy.GROUND_ALIKE)).outcome is Outcome.AS_IT_STANDS
    alike = plan(journals, CLASSES, Rules(policy=Policy.ALIKE))
    assert (alike.outcome, alike.orders) == (Outcome.GRIND, (("S10", 2),))


def test_a_journal_that_already_stands_in_the_size_is_left_alone():
    journals = [shaft("1", "1.9905"), shaft("2", "1.9970")]
    found = plan(journals, CLASSES, Rules(policy=Policy.GROUND_ALIKE))
    assert [(one.surface, one.ground) for one in found.works] == [("1", False), ("2", True)]


def test_orders_and_what_must_follow_come_from_the_data():
    journals = [shaft("1", "1.9970"), shaft("2", "1.9895"), shaft("3", "1.9895")]
    found = plan(journals, CLASSES, Rules(follows=("crack test",)))
    assert found.orders == (("S10", 1), ("S20", 2))
    assert found.follows == ("crack test", "fillet radius", "harden again")
    assert plan([shaft("1", "2.0005")], CLASSES, Rules(follows=("crack test",))).follows == ()


def test_every_class_nearer_standard_says_why_it_fails():
    found = plan([shaft("1", "1.9985", out_of_round=D("0.0007"))], CLASSES, Rules(most_out_of_round=D("0.0005")))
    assert [(one.size_class, one.reason) for one in found.refusals] == [
        ("standard", Reason.BEYOND_USE),
        ("0.002", Reason.OUT_OF_ROUND),
    ]
    tapered = plan([shaft("1", "1.9985", taper=D("0.0009"))], [SLIGHT], Rules(most_taper=D("0.0005")))
    assert [one.reason for one in tapered.refusals] == [Reason.TAPERED, Reason.NO_CLASS]
    fat = plan([shaft("1", "1.9985", "1.9995")], [SLIGHT], Rules())
    assert (fat.refusals[0].reason, fat.refusals[0].by) == (Reason.NEEDS_METAL_OFF, Fraction("0.0005"))


def test_the_allowance_and_the_grinders_room_count():
    journal = shaft("1", "1.9914")
    assert plan([journal], [TEN, TWENTY], Rules(allowance=D("0.0004"))).works[0].greatest == Fraction("1.991")
    narrow = plan([journal], [TEN, TWENTY], Rules(allowance=D("0.0010"))).works[0]
    assert (narrow.size_class, narrow.least, narrow.greatest) == (TEN, Fraction("1.990"), Fraction("1.9904"))
    roomy = plan([journal], [TEN, TWENTY], Rules(allowance=D("0.0010"), room=D("0.0005")))
    assert roomy.works[0].size_class == TWENTY
    assert (roomy.refusals[0].reason, roomy.refusals[0].by) == (Reason.TOO_LITTLE_ROOM, Fraction("0.0001"))


def test_a_journal_that_just_cleans_up_is_ground_to_the_very_end_of_the_class():
    found = plan([shaft("1", "1.9950", runout="0.0046")], [TEN, TWENTY], Rules(allowance=D("0.0004")))
    assert (found.works[0].size_class, found.works[0].least, found.works[0].greatest) == (
        TEN,
        Fraction("1.990"),
        Fraction("1.990"),
    )
    found = plan([shaft("1", "1.9950", runout="0.00461")], [TEN, TWENTY], Rules(allowance=D("0.0004")))
    assert found.works[0].size_class == TWENTY


def test_a_class_that_cannot_be_had_is_passed_over():
    gone = SizeClass(name="0.010", least=D("1.990"), greatest=D("1.991"), available=False)
    found = plan([shaft("1", "1.9970")], [gone, TWENTY], Rules())
    assert (found.works[0].size_class, found.refusals[0].reason) == (TWENTY, Reason.NOT_AVAILABLE)


def test_a_leaning_bore_needs_a_larger_piston_than_a_worn_one():
    classes = [
        SizeClass(name="0.010", least=D("4.010"), greatest=D("4.011"), order="P10"),
        SizeClass(name="0.015", least=D("4.015"), greatest=D("4.016"), order="P15"),
    ]
    worn, leaning = (Surface(name="1", least=4, greatest=D("4.008"), runout=D(out)) for out in ("0", "0.005"))
    rules = Rules(kind=Kind.BORE, allowance=D("0.002"))
    assert clean_up_size(worn, Kind.BORE, Fraction("0.002")) == Fraction("4.010")
    found = plan([worn], classes, rules)
    assert (found.orders, found.works[0].least, found.works[0].greatest) == ((("P10", 1),), Fraction("4.010"), Fraction("4.011"))
    found = plan([leaning], classes, rules)
    assert (found.orders, found.refusals[0].reason) == ((("P15", 1),), Reason.BOWED)


def test_a_surface_from_readings_at_planes():
    planes = {"front": [D("2.0004"), D("2.0001")], "rear": [D("1.9999"), D("1.9998")]}
    found = surface_from_planes("1", planes, ["front", "rear"], D("0.001"))
    assert (found.least, found.greatest) == (Fraction("1.9998"), Fraction("2.0004"))
    assert (found.out_of_round, found.taper) == (Fraction("0.0003"), Fraction("0.0004"))


TENTHS = st.integers(-250, 30)  # ten-thousandths from a standard of 2 inch
JOURNALS = st.lists(st.tuples(TENTHS, st.integers(0, 12), st.integers(0, 30)), min_size=1, max_size=5)


def ten_thousandths(count):
    return Fraction(count, 10_000)


@given(JOURNALS, st.integers(0, 20), st.sampled_from(Kind))
def test_the_size_clears_every_surface_and_is_the_smallest_that_does(journals, allowance, kind):
    """Against the definition, class by class: least diameter less run-out less allowance reaches the class."""
    classes = [
        SizeClass(name=str(-low), least=2 + ten_thousandths(low), greatest=2 + ten_thousandths(low + 10))
        for low in (-50, -100, -150, -200)
    ]
    surfaces = [
        Surface(name=str(index), least=2 + ten_thousandths(least), greatest=2 + ten_thousandths(least + more),
                runout=ten_thousandths(out))
        for index, (least, more, out) in enumerate(journals)
    ]  # fmt: skip
    if kind is Kind.BORE:  # mirrored about 2
        mirror = lambda one: {"least": 4 - one.greatest, "greatest": 4 - one.least}  # noqa: E731
        classes = [SizeClass(name=one.name, **mirror(one)) for one in classes]
        surfaces = [Surface(name=one.name, runout=one.runout, **mirror(one)) for one in surfaces]
    found = plan(surfaces, classes, Rules(kind=kind, policy=Policy.ALIKE, allowance=ten_thousandths(allowance)))

    def clears(low, journal):
        least, more, out = journal
        stands = low <= least and least + more <= low + 10
        return stands or low <= least - out - allowance

    able = [low for low in (-50, -100, -150, -200) if all(clears(low, journal) for journal in journals)]
    if not able:
        assert found.outcome is Outcome.REJECT
        return
    assert {work.size_class.name for work in found.works} == {str(-able[0])}
    for work, (least, _, out) in zip(found.works, journals, strict=True):
        nearest = work.greatest - 2 if kind is Kind.SHAFT else 2 - work.least
        assert not work.ground or nearest <= ten_thousandths(least - out - allowance)


def rank(least, runout):
    """The place of the class in order of metal gone, where the sizes in use leave no gap between standard and 0.002."""
    slight = replace(SLIGHT, used_greatest=D("2.000"))
    classes = in_order([STANDARD, slight, TEN, TWENTY], Kind.SHAFT)
    works = plan([shaft("1", 2 + D(least) / 10_000, runout=D(runout) / 10_000)], classes, Rules()).works
    return classes.index(works[0].size_class) if works else len(classes)


@given(st.integers(-250, 10), st.integers(1, 40))  # from the greatest size of standard down
def test_more_wear_of_a_straight_shaft_never_brings_a_class_nearer_standard(least, more):
    """Of a straight one: a bowed journal that wears down into a size may stand there without being cleaned up."""
    assert rank(least - more, 0) >= rank(least, 0)


@given(TENTHS, st.integers(0, 30), st.integers(1, 40))
def test_more_run_out_never_brings_a_class_nearer_standard(least, runout, more):
    assert rank(least, runout + more) >= rank(least, runout)


def test_a_gap_between_two_sizes_in_use_is_ground_never_guessed():
    assert plan([shaft("1", "1.9995")], CLASSES, Rules()).works[0].size_class == TEN


@pytest.mark.parametrize(
    ("surfaces", "classes", "rules", "error"),
    [
        ([], CLASSES, Rules(), NothingGiven),
        ([shaft("1", "2")], [], Rules(), NothingGiven),
        ([shaft("1", "2"), shaft("1", "2")], CLASSES, Rules(), BadLimits),
        ([shaft("1", "2")], [TEN, TEN], Rules(), BadLimits),
        ([shaft("1", "2.001", "2.000")], CLASSES, Rules(), BadLimits),
        ([shaft("1", "-2")], CLASSES, Rules(), BadFigure),
        ([shaft("1", "NaN")], CLASSES, Rules(), BadFigure),
        ([shaft("1", "2", runout="-0.001")], CLASSES, Rules(), BadFigure),
        ([shaft("1", "2", runout="Infinity")], CLASSES, Rules(), BadFigure),
        ([Surface(name="1", least=2.0, greatest=2.0)], CLASSES, Rules(), BadFigure),
        ([Surface(name="1", least=10**100_000, greatest=10**100_000)], CLASSES, Rules(), BadFigure),
        ([shaft("1", "2")], [SizeClass(name="a", least=D("2.1"), greatest=D("2.0"))], Rules(), BadLimits),
        ([shaft("1", "2")], [SizeClass(name="a", least=2, greatest=2, used_least=D("2.1"))], Rules(), BadLimits),
        ([shaft("1", "2")], CLASSES, Rules(allowance=D("-0.001")), BadFigure),
        ([shaft("1", "2")], CLASSES, Rules(room=D("0.002")), BadLimits),
    ],
)
def test_nonsense_is_refused(surfaces, classes, rules, error):
    with pytest.raises(error) as trouble:
        plan(surfaces, classes, rules)
    assert isinstance(trouble.value, MeasureError)
