"""The stages of an area and the moves between them: one on, or back to any earlier one."""

from engines.catalogue.data import STAGES


def next_stage(stage: str) -> str | None:
    """The stage after this one; None at the last."""
    place = STAGES.index(stage)
    return STAGES[place + 1] if place + 1 < len(STAGES) else None


def earlier_stages(stage: str) -> tuple[str, ...]:
    return STAGES[: STAGES.index(stage)]


def can_move(before: str, after: str) -> bool:
    return after == next_stage(before) or after in earlier_stages(before)
