"""The picture of the stages, and the moves that it shows."""

from itertools import product
from pathlib import Path

import pytest

from engines.catalogue.data import AREA_STAGES, ENGINE_STAGES, STAGES
from engines.release.drawing import diagram
from engines.release.gates import GATES
from engines.visits.stages import can_move, next_stage


def test_the_picture_is_drawn_from_the_tables():
    assert diagram() in (Path(__file__).resolve().parents[3] / "engines" / "release" / "stages.md").read_text()


def test_every_stage_has_its_gates_and_no_other():
    assert set(GATES) == set(STAGES)


@pytest.mark.parametrize("stages", [AREA_STAGES, ENGINE_STAGES])
def test_a_move_is_one_on_or_back_to_any_earlier_one(stages):
    legal = {(before, after) for before, after in product(stages, stages) if can_move(before, after)}
    places = {stage: place for place, stage in enumerate(stages)}
    assert legal == {
        (before, after)
        for before, after in product(stages, stages)
        if places[after] == places[before] + 1 or places[after] < places[before]
    }
    assert next_stage(stages[-1]) is None


def test_an_area_never_moves_into_the_stages_of_the_whole_engine():
    assert not any(can_move(before, after) for before, after in product(AREA_STAGES, ENGINE_STAGES))
