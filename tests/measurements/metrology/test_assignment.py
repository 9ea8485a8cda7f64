"""Selective assembly against brute force and chance, the time it takes, and what it refuses."""

import random
import time
from decimal import Decimal
from fractions import Fraction
from itertools import combinations, permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from measurements.metrology.assignment.best import Assignment, best_assignment, least_total
from measurements.metrology.assignment.matching import Shortage
from measurements.metrology.assignment.split import even_split
from measurements.metrology.assignment.table import Mate, fit_margins
from measurements.metrology.assignment.weights import Pairing, Unmatched, opposing_pairs
from measurements.metrology.errors import BadFigure, BadLimits, MeasureError, MixedDimensions, NothingGiven


def D(text):
    return Decimal(text)


@st.composite
def tables(draw, most=6):
    places = draw(st.integers(1, most))
    parts = draw(st.integers(places, most))
    cell = st.integers(-24, 24).map(lambda twelfths: Fraction(twelfths, 12))
    row = st.lists(st.none() | cell, min_size=parts, max_size=parts)
    return draw(st.lists(row, min_size=places, max_size=places))


def every_way(table):
    """The margins of each full assignment of a table."""
    orders = permutations(range(len(table[0])), len(table))
    chosen = ([row[part] for row, part in zip(table, order, strict=True)] for order in orders)
    return [margins for margins in chosen if None not in margins]


def margins_of(table, parts):
    assert len(set(parts)) == len(table)
    return [row[part] for row, part in zip(table, parts, strict=True)]


def check_against_all(table):
    found, ways = best_assignment(table), every_way(table)
    if not ways:
        assert isinstance(found, Shortage)
        fitting = {part for place in found.places for part, cell in enumerate(table[place]) if cell is not None}
        assert sorted(fitting) == list(found.parts)
        assert len(found.parts) == len(found.places) - 1
        return
    smallest = max(min(margins) for margins in ways)
    spread = min(max(margins) - smallest for margins in ways if min(margins) == smallest)
    assert (found.smallest, found.spread) == (smallest, spread)
    chosen = margins_of(table, found.parts)
    assert (min(chosen), max(chosen)) == (found.smallest, found.greatest)


@settings(max_examples=50)
@given(tables())
def test_the_best_is_the_best_of_all_or_the_shortage_is_real(table):
    check_against_all(table)


@pytest.mark.parametrize("start", range(3))
def test_seven_parts_in_seven_places_equal_brute_force(start):
    chance = random.Random(start)
    check_against_all(
        [[Fraction(chance.randrange(40), 7) if chance.random() < 0.8 else None for _ in range(7)] for _ in range(7)]
    )


@settings(max_examples=15)
@given(st.integers(0, 2**32), st.integers(2, 18))
def test_never_worse_than_a_thousand_random_ones(start, size):
    chance = random.Random(start)
    table = [[chance.randrange(10_000) for _ in range(size)] for _ in range(size)]
    found, order = best_assignment(table), list(range(size))
    for _ in range(1000):
        chance.shuffle(order)
        margins = [row[part] for row, part in zip(table, order, strict=True)]
        assert (min(margins), -max(margins)) <= (found.smallest, -found.greatest)


@settings(max_examples=50)
@given(tables(most=5))
def test_the_least_total_is_the_least_of_all(table):
    found, ways = least_total(table), every_way(table)
    assert isinstance(found, Shortage) == (not ways)
    if ways:
        parts, total = found
        assert total == sum(margins_of(table, parts)) == min(sum(margins) for margins in ways)


def test_a_margin_beyond_what_floating_point_tells_apart_decides():
    fine = Fraction(1, 10**30)
    found = best_assignment([[1, 1 + fine], [1 + fine, 1]])
    assert (found.parts, found.spread) == ((1, 0), 0)
    assert found.smallest == 1 + fine
    with pytest.raises(BadFigure, match="too many digits"):
        least_total([[0, 1 + fine], [1 + fine, fine]])


def test_pistons_to_cylinders_from_what_was_measured():
    bores = [Mate("1", D("5.1250"), D("5.1254")), Mate("2", D("5.1260"), D("5.1262"))]
    pistons = [Mate("a", D("5.1110"), D("5.1112")), Mate("b", D("5.1100"), D("5.1101"))]
    margins = fit_margins(bores, pistons, D("0.013"), D("0.016"))
    assert margins == (
        (Fraction("0.0008"), Fraction("0.0006")),
        (Fraction("0.0008"), None),  # piston b would be 0.0002 too loose in bore 2
    )
    found = best_assignment(margins)
    assert (found.parts, found.smallest) == ((1, 0), Fraction("0.0006"))
    turned = fit_margins(bores, pistons, D("0.013"), D("0.016"), places_are_inner=True)
    assert best_assignment(turned).parts == (1, 0)


def test_a_fit_that_must_be_tight():
    case, bush = [Mate("case", D("1.0000"), D("1.0002"))], [Mate("bush", D("1.0010"), D("1.0012"))]
    assert fit_margins(case, bush, D("-0.0015"), D("-0.0005")) == ((Fraction("0.0003"),),)
    assert fit_margins(case, bush, None, D("-0.0009")) == ((None,),)


def brute_pairing(weights, wanted):
    def pairings(left):
        if not left:
            yield []
            return
        for partner in left[1:]:
            for rest in pairings([part for part in left[1:] if part != partner]):
                yield [abs(weights[left[0]] - weights[partner]), *rest]

    chosen = [ways for parts in combinations(range(len(weights)), 2 * wanted) for ways in pairings(list(parts))]
    worst, total = min((max(ways), sum(ways)) for ways in chosen)
    return worst, total


@settings(max_examples=40)
@given(st.lists(st.integers(1, 60), min_size=2, max_size=8), st.integers(1, 3))
def test_pairs_equal_brute_force(weights, wanted):
    wanted = min(wanted, len(weights) // 2)
    found = opposing_pairs(weights, 1000, wanted)
    used = [part for pair in found.pairs for part in pair]
    assert len(set(used)) == 2 * wanted
    assert (found.worst, found.total) == brute_pairing(weights, wanted)
    steps = [weights[first] - weights[second] for first, second in found.pairs]
    assert max(map(abs, steps)) == found.worst
    turned = min(
        abs(sum(sign * step for sign, step in zip(signs, steps, strict=True))) for signs in product((1, -1), repeat=wanted)
    )
    assert abs(sum(steps)) == found.sides == turned


def test_parts_without_a_partner_are_named():
    found = opposing_pairs([D("700"), D("701.5"), D("720"), D("740")], D("2"))
    assert found == Unmatched(1, (2, 3))
    assert isinstance(opposing_pairs([D("700"), D("701.5"), D("720"), D("740")], D("2"), pairs=1), Pairing)
    assert isinstance(opposing_pairs([D("700"), D("702")], D("1.999999999999999999999")), Unmatched)


@settings(max_examples=50)
@given(st.lists(st.integers(0, 200).map(lambda quarters: Fraction(quarters, 4)), min_size=1, max_size=8))
def test_a_split_equals_brute_force(weights):
    best = min(abs(sum(s * w for s, w in zip(signs, weights, strict=True))) for signs in product((1, -1), repeat=len(weights)))
    found = even_split(weights)
    first = sum((weights[index] for index in found.first), Fraction())
    assert found.difference == abs(2 * first - sum(weights)) == best


def test_eighteen_cylinders_take_well_under_a_second():
    chance = random.Random(18)
    margins = [[Fraction(chance.randrange(10**6), 254) for _ in range(18)] for _ in range(18)]
    weights = [Fraction(chance.randrange(700_000, 702_000), 1000) for _ in range(18)]
    began = time.process_time()
    assert isinstance(best_assignment(margins), Assignment)
    assert isinstance(opposing_pairs(weights, 2), Pairing)
    even_split([chance.randrange(2**40) for _ in range(18)])
    assert time.process_time() - began < 1


@pytest.mark.parametrize(
    ("ask", "error"),
    [
        (lambda: best_assignment([]), NothingGiven),
        (lambda: best_assignment([[]]), NothingGiven),
        (lambda: best_assignment([[1, 2], [1]]), MixedDimensions),
        (lambda: best_assignment([[0.5]]), BadFigure),
        (lambda: best_assignment([[D("NaN")]]), BadFigure),
        (lambda: best_assignment([[10**100_000]]), BadFigure),
        (lambda: least_total([[D("Infinity")]]), BadFigure),
        (lambda: fit_margins([], [], 0, 1), NothingGiven),
        (lambda: fit_margins([Mate("a", 1, 2)], [Mate("b", 1, 1)], 2, 1), BadLimits),
        (lambda: fit_margins([Mate("a", 1, 2)], [Mate("b", 1, 1)], None, None), BadLimits),
        (lambda: fit_margins([Mate("a", 2, 1)], [Mate("b", 1, 1)], 0, 1), BadLimits),
        (lambda: fit_margins([Mate("a", -2, 1)], [Mate("b", 1, 1)], 0, 1), BadFigure),
        (lambda: opposing_pairs([], 1), NothingGiven),
        (lambda: opposing_pairs([1], 1), BadFigure),
        (lambda: opposing_pairs([1, 2], 1, pairs=2), NothingGiven),
        (lambda: opposing_pairs([1, 2], 1, pairs=0), BadFigure),
        (lambda: opposing_pairs([1, 2, 3, 4], 1, pairs=1.5), BadFigure),
        (lambda: opposing_pairs([1, 0], 1), BadFigure),
        (lambda: opposing_pairs([1, 2], -1), BadFigure),
        (lambda: even_split([-1]), BadFigure),
        (lambda: even_split([1] * 19), BadFigure),
    ],
)
def test_nonsense_is_refused(ask, error):
    with pytest.raises(error) as trouble:
        ask()
    assert isinstance(trouble.value, MeasureError)
