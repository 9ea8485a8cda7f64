"""What can be done on an area now, and why the rest cannot."""

from dataclasses import dataclass

from engines.catalogue.data import STAGES
from engines.release.blockers import Situation
from engines.steps.parts_out import waits_for_parts
from engines.steps.registry import step_of
from engines.traveler.models import Operation
from engines.traveler.work import reasons_to_wait


@dataclass(frozen=True)
class Planned:
    operation: Operation
    kind: str
    waits: list[str]


@dataclass(frozen=True)
class StageOfArea:
    name: str
    is_now: bool
    operations: list[Planned]

    @property
    def is_over(self) -> bool:
        """Nothing is left to be done in it, so it need not stand in the way of what is."""
        return not self.is_now and all(each.operation.is_complete for each in self.operations)


def stages_of(situation: Situation) -> list[StageOfArea]:
    """The area's operations by stage; stages without any are left out unless the area stands in them."""
    every = {each.code: each for each in situation.operations}
    mine = [each for each in situation.operations if each.area_id == situation.area.pk]
    found = [
        StageOfArea(
            stage,
            stage == situation.area.stage,
            [Planned(each, step_of(each.kind).words, _waits(situation, each, every)) for each in mine if each.stage == stage],
        )
        for stage in STAGES
    ]
    return [stage for stage in found if stage.operations or stage.is_now]


def _waits(situation: Situation, operation: Operation, every: dict[str, Operation]) -> list[str]:
    planned = situation.now.rows.data.operation_by_code.get(operation.code)
    if planned is None:
        return reasons_to_wait(operation, every, ())
    return [*reasons_to_wait(operation, every, planned.after), *waits_for_parts(situation.now, planned)]
