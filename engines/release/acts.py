"""The acts that make an engine *overhauled*: 14 CFR 43.2(a)(1) and (2). Each must be signed, for every area."""

from collections.abc import Iterator

from engines.catalogue.data import ENGINE, ENGINE_STAGES
from engines.release.blockers import Blocker, Situation
from engines.visits.models import VisitArea

ACTS = {
    "disassembled": "teardown",
    "cleaned": "cleaning",
    "inspected": "inspection",
    "repaired as necessary": "repair",
    "reassembled": "assembly",
    "tested": "test",
}
AS_NECESSARY = frozenset({"repair"})  # none may have been needed


def acts_missing(situation: Situation) -> list[Blocker]:
    """Which act is not signed for which area; empty when the engine may be called overhauled."""
    found = ((area, act) for area in situation.areas for act in ACTS if not _is_signed(situation, area, act))
    return [
        Blocker(f"{area.name} is not {act}: no operation of the stage {ACTS[act]} is signed for it.", "area", area.pk)
        for area, act in found
    ]


def _is_signed(situation: Situation, area: VisitArea, act: str) -> bool:
    stage = ACTS[act]
    if (area.code == ENGINE) != (stage in ENGINE_STAGES):
        return True  # the whole engine is tested, its areas are what was taken apart
    complete = list(_complete(situation, area, stage))
    return all(complete) and (bool(complete) or stage in AS_NECESSARY)


def _complete(situation: Situation, area: VisitArea, stage: str) -> Iterator[bool]:
    return (each.is_complete for each in situation.operations if each.area_id == area.pk and each.stage == stage)
