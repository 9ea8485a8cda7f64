"""The stages of an area and the moves between them: one on, or back to any earlier one."""

from engines.catalogue.data import AREA_STAGES, ENGINE_STAGES


def sequence_of(stage: str) -> tuple[str, ...]:
    """All stages of the areas that pass through this one."""
    return AREA_STAGES if stage in AREA_STAGES else ENGINE_STAGES


def next_stage(stage: str) -> str | None:
    """The stage after this one; None at the last."""
    stages = sequence_of(stage)
    place = stages.index(stage)
    return stages[place + 1] if place + 1 < len(stages) else None


def earlier_stages(stage: str) -> tuple[str, ...]:
    stages = sequence_of(stage)
    return stages[: stages.index(stage)]


def can_move(before: str, after: str) -> bool:
    return after == next_stage(before) or after in earlier_stages(before)
