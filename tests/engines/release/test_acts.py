"""Which act of an overhaul is missing, and for which area. The acts: 14 CFR 43.2(a)(1) and (2), from memory."""

from types import SimpleNamespace
from uuid import uuid4

import pytest

from engines.catalogue.data import AREA_STAGES
from engines.release.acts import ACTS, acts_missing

AREAS = [SimpleNamespace(code=code, name=code, pk=uuid4()) for code in ("case", "cylinders", "engine")]


def situation(*operations):
    """Operations as (area, stage, complete)."""
    keys = {area.code: area.pk for area in AREAS}
    made = [SimpleNamespace(area_id=keys[area], stage=stage, is_complete=done) for area, stage, done in operations]
    return SimpleNamespace(areas=AREAS, operations=made)


def overhaul(**instead):
    """Everything signed, but what is said to be otherwise: True signed, False not signed, None not there."""
    every = {(area, stage): True for area in ("case", "cylinders") for stage in AREA_STAGES} | {("engine", "test"): True}
    every |= {tuple(name.split("__")): value for name, value in instead.items()}
    return situation(*((area, stage, done) for (area, stage), done in every.items() if done is not None))


def test_the_acts_are_those_of_the_rule_in_its_order():
    assert list(ACTS) == ["disassembled", "cleaned", "inspected", "repaired as necessary", "reassembled", "tested"]


def test_nothing_is_missing_where_every_act_is_signed():
    assert acts_missing(overhaul()) == []


@pytest.mark.parametrize("left", [None, False], ids=["no operation", "not signed"])
@pytest.mark.parametrize(
    ("area", "stage", "words"),
    [
        ("case", "teardown", "case is not disassembled"),
        ("cylinders", "cleaning", "cylinders is not cleaned"),
        ("case", "inspection", "case is not inspected"),
        ("cylinders", "assembly", "cylinders is not reassembled"),
        ("engine", "test", "engine is not tested"),
    ],
)
def test_the_missing_act_and_its_area_are_named(area, stage, words, left):
    missing = acts_missing(overhaul(**{f"{area}__{stage}": left}))
    assert [each.sentence.partition(":")[0] for each in missing] == [words]
    assert missing[0].key == next(each.pk for each in AREAS if each.code == area)


def test_repair_may_not_have_been_needed_but_what_was_begun_is_finished():
    assert acts_missing(overhaul(case__repair=None)) == []
    assert len(acts_missing(overhaul(case__repair=False))) == 1


def test_receiving_is_no_act_of_an_overhaul():
    assert acts_missing(overhaul(case__receiving=None)) == []
