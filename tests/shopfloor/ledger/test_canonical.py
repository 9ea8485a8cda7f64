"""Canonical JSON: the published outputs of RFC 8785, and what the ledger refuses to keep."""

from datetime import datetime, timedelta, timezone
from decimal import Decimal
from hashlib import sha256

import pytest
import rfc8785
from hypothesis import example, given
from hypothesis import strategies as st

from shopfloor.ledger.canonical import NotCanonical, canonical, moment

# SHA-256 of the published test outputs (cyberphone/json-canonicalization, commit 19d51d7f; hashes computed from them).
# The inputs are written here from memory: that they give the published hashes is the check.
ARRAYS = "099601b171cafed97c333f8878d68e7f8c8f795412adb34b2fdcf0e7c7beac42"
VALUES = "2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb"
WEIRD = "6af595a9aa80110b964b4de3f82a05fa6ae7423005019bacfa2620dddc4e94d1"


def test_published_arrays():
    assert sha256(canonical([56, {"d": True, "10": None, "1": []}])).hexdigest() == ARRAYS


def test_published_keys_sort_by_utf_16():
    weird = {
        "\u20ac": "Euro Sign",
        "\r": "Carriage Return",
        "\n": "Newline",
        "1": "One",
        "\u0080": "Control\u007f",
        "\U0001f602": "Smiley",
        "\u00f6": "Latin Small Letter O With Diaeresis",
        "\ufb33": "Hebrew Letter Dalet With Dagesh",
        "</script>": "Browser Challenge",
    }
    assert sha256(canonical(weird)).hexdigest() == WEIRD


def test_published_values_by_the_library_since_the_ledger_itself_refuses_their_floats():
    values = {
        "numbers": [333333333.33333329, 1e30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": '\u20ac$\u000f\nA\'B"\\\\"/',
        "literals": [None, True, False],
    }
    assert sha256(rfc8785.dumps(values)).hexdigest() == VALUES
    with pytest.raises(NotCanonical):
        canonical(values)


@pytest.mark.parametrize("value", [0.5, Decimal("2.1235"), 2**53, datetime(2026, 1, 1), b"x", {1: "x"}, "\ud800", "\0", {"a"}])
def test_what_json_bends_is_refused_with_its_place(value):
    with pytest.raises(NotCanonical, match=r"the body\.facts"):
        canonical({"facts": {"x": [value]}})


@pytest.mark.parametrize("value", [None, True, 2**53 - 1, -(2**53) + 1, "2.1235 in", [], {}, ["a", 1]])
def test_what_json_keeps_whole_is_taken(value):
    assert canonical({"x": value})


def test_a_moment_is_utc_with_six_decimals():
    half_past = datetime(2026, 11, 25, 12, 30, tzinfo=timezone(timedelta(hours=2)))
    assert moment(half_past) == "2026-11-25T10:30:00.000000Z"
    with pytest.raises(NotCanonical):
        moment(datetime(2026, 11, 25))


TEXTS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"))
LEAVES = st.none() | st.booleans() | st.integers(-(2**53) + 1, 2**53 - 1) | TEXTS
BODIES = st.recursive(LEAVES, lambda inside: st.lists(inside) | st.dictionaries(TEXTS, inside), max_leaves=30)


@given(BODIES)
@example({"\uffff": 1, "\U00010000": 2})
@example({"".join(map(chr, range(1, 0x100))): "\u2028\u2029\ufffe\uffff"})
def test_the_bytes_are_those_of_the_library(body):
    assert canonical(body) == rfc8785.dumps(body)
