"""The stages, their moves and the gates between them as a picture, drawn from the tables that decide."""

from collections.abc import Iterator

from engines.catalogue.data import AREA_STAGES, ENGINE_STAGES
from engines.release.gates import GATES
from engines.visits.stages import next_stage


def diagram() -> str:
    """A Mermaid state diagram: on through every gate, back to any earlier stage with a reason."""
    return "\n".join(["stateDiagram-v2", *_lines(AREA_STAGES), *_lines(ENGINE_STAGES), *_meeting(), *_leaving(), ""])


def _lines(stages: tuple[str, ...]) -> Iterator[str]:
    for stage in stages:
        yield f"    {_id(stage)}: {stage}"
    yield f"    [*] --> {_id(stages[0])}: received"
    for stage in stages:
        if after := next_stage(stage):
            yield f"    {_id(stage)} --> {_id(after)}: {_gates(stage)}"
        if stage != stages[0]:
            yield f"    {_id(stage)} --> {_id(stages[0])}: back to any earlier stage, with a reason"


def _meeting() -> Iterator[str]:
    yield f"    {_id(AREA_STAGES[-1])} --> {_id(ENGINE_STAGES[0])}: every area is ready"


def _leaving() -> Iterator[str]:
    last = ENGINE_STAGES[-1]
    yield f"    {_id(last)} --> [*]: signed, {_gates(last)}"


def _gates(stage: str) -> str:
    return ", ".join(gate.__name__.replace("_", " ") for gate in GATES[stage])


def _id(stage: str) -> str:
    return stage.replace("-", "_").replace(" ", "_")
