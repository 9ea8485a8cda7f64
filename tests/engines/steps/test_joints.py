"""The tries of a joint, decided from what was done, by whom and when; and the picture that its fasteners are tapped on."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engines.steps.joints import CALLED, Act, Order, in_passes, interruption, next_place, tries_of
from engines.steps.picture import EDGE, SIDE, dots_of, numbers_of

NOON = datetime(2026, 1, 1, 12, tzinfo=UTC)
ORDER = Order(in_passes([["1", "2"], ["2", "1"]]), timedelta(minutes=10))
ANNA, BERT = 1, 2


def acts(*places, hand=ANNA, apart=1):
    return [Act(place, hand, NOON + timedelta(minutes=apart * number)) for number, place in enumerate(places)]


def test_each_pass_begins_with_what_is_made_ready():
    assert ORDER.places == (("1", ""), ("1", "1"), ("1", "2"), ("2", ""), ("2", "2"), ("2", "1"))


def test_a_whole_try_is_complete_and_nothing_follows():
    (only,) = tries_of(ORDER, acts(*ORDER.places))
    assert (only.number, only.hand, only.void, ORDER.is_complete(only)) == (1, ANNA, "", True)
    assert next_place(ORDER, [only], BERT, NOON + timedelta(days=1)) is None


@pytest.mark.parametrize(
    ("more", "void"),
    [
        (Act(("1", "2"), ANNA, NOON + timedelta(minutes=2)), ""),
        (Act(("2", "1"), ANNA, NOON + timedelta(minutes=2)), "out of order"),
        (Act(("1", "2"), ANNA, NOON + timedelta(minutes=2), ruined="too far"), "too far"),
        (Act(("1", ""), BERT, NOON + timedelta(minutes=2)), "another person began"),
        (Act(CALLED, BERT, NOON + timedelta(minutes=2), ruined="bumped"), "bumped"),
        (Act(("1", ""), ANNA, NOON + timedelta(minutes=12)), "more than 10 minutes passed between two fasteners"),
    ],
)
def test_what_makes_a_try_void(more, void):
    assert tries_of(ORDER, [*acts(("1", ""), ("1", "1")), more])[0].void == void


def test_a_fastener_that_is_not_done_stays_next():
    half = Act(("1", "1"), ANNA, NOON, is_done=False)
    assert next_place(ORDER, tries_of(ORDER, [*acts(("1", "")), half]), ANNA) == ("1", "1")


def test_ten_minutes_are_not_more_than_ten():
    tries = tries_of(ORDER, acts(("1", ""), ("1", "1")))
    at = NOON + timedelta(minutes=11)
    assert interruption(ORDER, tries[0], ANNA, at) == ""
    assert next_place(ORDER, tries, ANNA, at + timedelta(seconds=1)) == ("1", "")


hands, stretches_of_work = st.sampled_from([ANNA, BERT]), st.integers(0, len(ORDER.places))
in_order = st.builds(lambda hand, upto: [Act(place, hand, NOON) for place in ORDER.places[:upto]], hands, stretches_of_work)
anything = st.builds(Act, st.sampled_from(ORDER.places), hands, st.just(NOON), st.booleans(), st.sampled_from(["", "", "ruined"]))
called = st.builds(lambda hand: Act(CALLED, hand, NOON, ruined="bumped"), hands)
alone = st.one_of(anything, called).map(lambda act: [act])
deeds = st.lists(st.one_of(in_order, in_order, alone), max_size=12).map(lambda parts: [act for part in parts for act in part])


@given(deeds)
def test_only_the_last_try_can_be_valid_and_a_complete_one_is_of_one_hand_in_order(made):
    tries = tries_of(ORDER, made)
    assert all(each.void for each in tries[:-1])
    assert [each.number for each in tries] == list(range(1, len(tries) + 1))
    if tries and ORDER.is_complete(tries[-1]):
        finished = [each for each in made if each.is_done and each.place != CALLED][-len(ORDER.places) :]
        assert [(each.place, each.hand) for each in finished] == [(place, tries[-1].hand) for place in ORDER.places]
    assert (next_place(ORDER, tries) is None) == bool(tries and ORDER.is_complete(tries[-1]))


def test_a_circle_is_numbered_clockwise_from_the_top():
    top, right, bottom, left = ((dot.x, dot.y) for dot in dots_of({"circle": "4"}))
    assert (top, right, bottom, left) == ((180, EDGE), (SIDE - EDGE, 180), (180, SIDE - EDGE), (EDGE, 180))


def test_fasteners_lie_as_the_data_lay_them_and_say_how_they_stand():
    lies = [{"number": "a", "x": "0", "y": "0"}, {"number": "b", "x": "4", "y": "0"}, {"number": "c", "x": "4", "y": "2"}]
    first, second, third = dots_of({"fasteners": lies}, "b", ["a"])
    assert [dot.state for dot in (first, second, third)] == ["done", "next", "to do"]
    assert second.x - first.x == 2 * (third.y - second.y) == SIDE - 2 * EDGE
    assert numbers_of({"fasteners": lies}) == ("a", "b", "c")


def test_a_single_fastener_has_its_picture():
    assert len(dots_of({"fasteners": [{"number": "1", "x": "3", "y": "3"}]})) == 1
