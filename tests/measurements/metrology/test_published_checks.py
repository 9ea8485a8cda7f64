"""Every published figure of tests/published agrees with what the library computes."""

import importlib
import pkgutil
from collections import Counter
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

from tests.published.check import Check

FOLDER = Path(__file__).parents[2] / "published"


def published():
    modules = sorted(found.name for found in pkgutil.iter_modules([str(FOLDER)]))
    return [check for name in modules for check in getattr(importlib.import_module(f"tests.published.{name}"), "CHECKS", [])]


CHECKS = published()


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.name)
def test_the_published_figure_agrees(check):
    assert check.agrees(), f"{check.source}, {check.quantity}: expected {check.expected}, computed {check.shown()}"


def test_no_source_carries_more_than_ten_checks_and_no_check_stands_twice():
    assert [source for source, count in Counter(check.source for check in CHECKS).items() if count > 10] == []
    assert [name for name, count in Counter(check.name for check in CHECKS).items() if count > 1] == []
    assert {check.group for check in CHECKS} <= set(range(1, 15))


@pytest.mark.parametrize(
    ("expected", "value", "tolerance", "agrees"),
    [
        ("0.0014-0.0021", (Fraction("0.0014"), Decimal("0.0021")), "exact", True),
        ("0.0014-0.0021", (Fraction("0.0014"), Decimal("0.0022")), "exact", False),
        ("0.0014-0.0021", Fraction("0.0014"), "exact", False),
        ("16.387064 cm3", Fraction("16.387064"), "exact", True),
        ("-.262323073774029", -0.2623230737740291, "1e-14", True),
        ("0.32", Fraction("0.3251"), "0.005", False),
        ("1", float("nan"), "1", False),
        ("yes", True, "exact", True),
        ("1", True, "exact", False),
        ("0.010, 0.020", ("0.010", "0.020"), "exact", True),
        ("grind", "accept", "exact", False),
    ],
)
def test_a_check_can_fail(expected, value, tolerance, agrees):
    assert Check(1, "here", "a figure", expected, lambda: value, tolerance).agrees() is agrees
