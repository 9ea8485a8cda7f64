"""The stages, their moves and the gates between them as a picture, drawn from the tables that decide."""

from collections.abc import Iterator

from engines.catalogue.data import AREA_STAGES, ENGINE_STAGES
from engines.release.gates import GATES
from engines.visits.stages import next_stage


def diagram() -> str:
    """A Mermaid state diagram: on through every gate, back to any earlier stage with a reason."""
    return "\n".join(["stateDiagram-v2", *_lines(AREA_STAGES), *_lines(ENGINE_STAGES), *_meeting(), ""])


def _lines(stages: tuple[str, ...]) -> Iterator[str]:
    for stage in stages:
        yield f"    {_id(stage)}: {stage}"
    yield f"    [*] --> {_id(stages[0])}: received"
    for stage in stages:
        if after := next_stage(stage):
            gates = ", ".join(gate.__name__.replace("_", " ") for gate in GATES[stage])
            yield f"    {_id(stage)} --> {_id(after)}: {gates}"
        if stage != stages[0]:
            yield f"    {_id(stage)} --> {_id(stages[0])}: back to any earlier stage, with a reason"


def _meeting() -> Iterator[str]:
    yield f"    {_id(AREA_STAGES[-1])} --> {_id(ENGINE_STAGES[0])}: every area is ready"


def _id(stage: str) -> str:
    return stage.replace("-", "_").replace(" ", "_")
