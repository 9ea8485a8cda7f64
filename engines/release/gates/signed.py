"""Every operation of this stage, and of the stages before it, is complete."""

from engines.release.blockers import Blocker, Situation
from engines.traveler.models import Operation
from engines.visits.stages import earlier_stages


def operations_complete(situation: Situation) -> list[Blocker]:
    reached = (*earlier_stages(situation.area.stage), situation.area.stage)
    mine = (each for each in situation.operations if each.area_id == situation.area.pk and each.stage in reached)
    return [Blocker(f"“{each.title}” {_why(each)}.", "operation", each.pk) for each in mine if not each.is_complete]


def _why(operation: Operation) -> str:
    if operation.signed_at:
        return "waits for a second person to accept it"
    return "is not signed" if operation.round == 1 else "was opened again and is not signed"
