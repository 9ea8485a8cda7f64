"""Published assignments, matchings, partitions and matched weights, each with its source."""

from decimal import Decimal

from measurements.metrology.assignment.best import Assignment, best_assignment, least_total
from measurements.metrology.assignment.matching import Shortage, shortage
from measurements.metrology.assignment.split import even_split
from measurements.metrology.assignment.table import Mate, fit_margins
from measurements.metrology.assignment.weights import Pairing, opposing_pairs
from tests.published.check import Check

# Costs, columns chosen, sum. Zero below stands for a pair that may not be where the source says so.
SUM_DOCS = [[4, 1, 3], [2, 0, 5], [3, 2, 2]]
TUTORIAL = [[82, 83, 69, 92], [77, 37, 49, 92], [11, 69, 5, 86], [8, 9, 98, 23]]
FULL_DOCS = [[3, 3, 6], [4, 3, 5], [10, 1, 8]]
MATCHING_DOCS = [[0, 0, 1], [1, 1, 0]]
INFEASIBLE = {
    "two places for one part": [[1, 1, 1], [1, 0, 0], [1, 0, 0]],
    "a place that no part fits": [[1, 0, 0, 1], [1, 1, 0, 1], [0, 0, 0, 0]],
}
SQUARE_TEST = [[400, 150, 400], [400, 450, 600], [300, 225, 300]]
WIDE_TEST = [[400, 150, 400, 1], [400, 450, 600, 2], [300, 225, 300, 3]]
TENS_TEST = [[10, 10, 8], [9, 8, 1], [9, 7, 4]]
# H. T. Lau's graph algorithms in Java, example of a bottleneck assignment (matrix read in a stored copy).
LAU = [[9, 6, 8, 4, 7], [8, 7, 6, 8, 3], [7, 4, 3, 5, 6], [9, 8, 3, 7, 6], [8, 7, 3, 6, 5]]
# Four sets over the parts 1 to 5 that have no system of representatives (textbook example of Hall's theorem, from memory).
HALL = [{2, 3, 4, 5}, {4, 5}, {5}, {4}]
# TM 5-6115-545-34, table 1-2, inches.
PIN, PISTON, BUSHING = (
    [Mate("pin", Decimal("1.5011"), Decimal("1.5013"))],
    [Mate("piston", Decimal("1.5014"), Decimal("1.5016"))],
    [Mate("bushing", Decimal("1.5027"), Decimal("1.5032"))],
)


def permitted(table):
    return [[cell or None for cell in row] for row in table]


def columns(costs):
    found = least_total(costs)
    return () if isinstance(found, Shortage) else found[0]


def total(costs):
    found = least_total(costs)
    return None if isinstance(found, Shortage) else found[1]


def bottleneck(costs):
    """Least greatest cost: the smallest margin, turned."""
    found = best_assignment([[-cost for cost in row] for row in costs])
    return -found.smallest if isinstance(found, Assignment) else None


def short(sets):
    found = shortage([[part in one for part in range(1, 6)] for one in sets])
    return [place + 1 for place in found.places] + [part + 1 for part in found.parts]


def lacking(name):
    found = best_assignment(permitted(INFEASIBLE[name]))
    return [*found.places, len(found.parts)] if isinstance(found, Shortage) else []


def sums(weights):
    found = even_split(weights)
    first = sum(weights[index] for index in found.first)
    return sorted([first, sum(weights) - first])


def match(weights, limit):
    return isinstance(opposing_pairs([Decimal(one) for one in weights], Decimal(limit)), Pairing)


def margin(outer, low, high):
    return fit_margins(outer, PIN, low and Decimal(low), high and Decimal(high))[0][0]


DOCS = "SciPy documentation of linear_sum_assignment"
FULL = "SciPy documentation of min_weight_full_bipartite_matching"
TESTS = "SciPy's tests of csgraph matching"
FORKLIFT = "TM 10-3930-653-14&P, weights of pistons and rods"
PINS = "TM 5-6115-545-34, table 1-2, margins of the pin"
HALLS = "Hall's theorem, textbook example"


def check(source, quantity, expected, computed, note="read"):
    return Check(7, source, quantity, expected, computed, "exact", note)


CHECKS = [
    check(DOCS, "columns of least total", "1 0 2", lambda: columns(SUM_DOCS)),
    check(DOCS, "least total", "5", lambda: total(SUM_DOCS)),
    check(
        "4 by 4 costs of many tutorials", "columns of least total", "2 1 0 3", lambda: columns(TUTORIAL), "computed with SciPy"
    ),
    check("4 by 4 costs of many tutorials", "least total", "140", lambda: total(TUTORIAL), "computed with SciPy"),
    check(FULL, "columns of least total", "0 2 1", lambda: columns(FULL_DOCS)),
    check(FULL, "least total", "9", lambda: total(FULL_DOCS)),
    check(
        "SciPy documentation of maximum_bipartite_matching",
        "columns matched",
        "2 0",
        lambda: best_assignment(permitted(MATCHING_DOCS)).parts,
    ),
    check(TESTS, "square costs, least total", "850", lambda: total(SQUARE_TEST)),
    check(TESTS, "more parts than places, least total", "452", lambda: total(WIDE_TEST)),
    check(TESTS, "costs of tens, least total", "18", lambda: total(TENS_TEST)),
    check(TESTS, "infeasible: two places, one part that fits", "1 2 1", lambda: lacking("two places for one part")),
    check(TESTS, "infeasible: a place without a part", "2 0", lambda: lacking("a place that no part fits")),
    check(
        "Lau, graph algorithms, bottleneck assignment",
        "bottleneck of the printed matrix",
        "7",  # nothing below 7 stands in the first column
        lambda: bottleneck(LAU),
        "matrix read; value computed over all 120 orders",
    ),
    check(HALLS, "sets 2, 3, 4 hold only 4 and 5", "2 3 4 4 5", lambda: short(HALL), "from memory"),
    check("prtpy, numbers 4 to 8 in two sets", "sums", "15 15", lambda: sums([4, 5, 6, 7, 8]), "computed with prtpy"),
    check("Partition problem, textbook example 3 1 1 2 2 1", "sums", "5 5", lambda: sums([3, 1, 1, 2, 2, 1]), "from memory"),
    check(FORKLIFT, "pistons 2 g apart", "yes", lambda: match(["701", "703"], "2")),
    check(FORKLIFT, "pistons 2.01 g apart", "no", lambda: match(["701", "703.01"], "2")),
    check(FORKLIFT, "rods 5 g apart", "yes", lambda: match(["1205.0", "1200"], "5")),
    check(FORKLIFT, "rods 5.01 g apart", "no", lambda: match(["1205.01", "1200"], "5")),
    check(PINS, "in the piston, limits 0.0001 to 0.0005", "0", lambda: margin(PISTON, "0.0001", "0.0005")),
    check(PINS, "in the bushing, new 0.0014 to 0.0021", "0", lambda: margin(BUSHING, "0.0014", "0.0021")),
    check(PINS, "in the bushing, to its maximum 0.0025", "0.0004", lambda: margin(BUSHING, None, "0.0025")),
]
