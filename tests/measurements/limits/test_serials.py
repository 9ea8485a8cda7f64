"""Which serials a range of a limit table holds. The order of serials by number within a prefix: common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measurements.limits.serials import Serial, in_range, overlap, parse


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("L-1204-A", Serial("L-", 1204, "-A")),
        ("  l-0007 ", Serial("L-", 7, "")),
        ("88-412", Serial("88-", 412, "")),
        ("L-", None),
        ("", None),
    ],
)
def test_a_serial_has_a_prefix_a_number_and_a_suffix(text, parts):
    assert parse(text) == parts


@pytest.mark.parametrize(
    ("serial", "first", "last", "inside"),
    [
        ("L-100", "", "", True),
        ("no number", "", "", True),
        ("L-100", "L-100", "L-200", True),
        ("L-200", "L-100", "L-200", True),
        ("L-201", "L-100", "L-200", False),
        ("L-99", "L-100", "", False),
        ("L-5000", "L-100", "", True),
        ("L-1000", "L-900", "L-1100", True),  # as numbers: as text, 1000 sorts before 900
        ("R-150", "L-100", "L-200", False),
        ("L-150-A", "L-100", "L-200", False),
        ("no number", "L-100", "", False),
    ],
)
def test_a_range_lives_in_one_prefix(serial, first, last, inside):
    assert in_range(serial, first, last) is inside


numbers = st.integers(0, 400)
ends = st.tuples(st.sampled_from(["L-", "R-"]), numbers, numbers).map(
    lambda drawn: (f"{drawn[0]}{min(drawn[1:])}", f"{drawn[0]}{max(drawn[1:])}")
)
ranges = ends | ends.map(lambda pair: (pair[0], "")) | ends.map(lambda pair: ("", pair[1])) | st.just(("", ""))


@given(ranges, ranges)
def test_two_ranges_overlap_when_some_serial_lies_in_both(first, second):
    """Every serial is tried, up to one beyond the greatest that a range can name."""
    serials = [f"{prefix}{number}" for prefix in ("L-", "R-") for number in range(402)]
    assert overlap(first, second) == any(in_range(serial, *first) and in_range(serial, *second) for serial in serials)
