"""What somebody asked to be added is approved or refused before its stage is left."""

from engines.release.blockers import Blocker, Situation
from engines.visits.stages import earlier_stages


def additions_decided(situation: Situation) -> list[Blocker]:
    reached = (*earlier_stages(situation.area.stage), situation.area.stage)
    mine = (each for each in situation.additions if each.area == situation.area.code and each.stage in reached)
    return [
        Blocker(f"“{each.operation.title}” was added and waits for another authorised person to approve it.", "addition", each.pk)
        for each in mine
        if each.decided_at is None
    ]
