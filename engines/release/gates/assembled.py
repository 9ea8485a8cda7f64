"""An area is ready for close-up when nothing holds it in assembly; the whole engine when every other area is."""

from engines.catalogue.data import AREA_STAGES, ENGINE
from engines.release.blockers import Blocker, Situation
from engines.release.gates.asked import requests_answered
from engines.release.gates.data import changes_settled
from engines.release.gates.decided import discrepancies_decided
from engines.release.gates.done import decisions_carried_out, everything_good, everything_good_as_assembled
from engines.release.gates.fitted import parts_in_place
from engines.release.gates.outside import read_again_after_vendor
from engines.release.gates.paired import pairings_hold
from engines.release.gates.parts import every_part_accounted_for, sets_renewed_together
from engines.release.gates.signed import operations_complete

READY = (
    operations_complete,
    changes_settled,
    everything_good,
    everything_good_as_assembled,
    read_again_after_vendor,
    discrepancies_decided,
    requests_answered,
    decisions_carried_out,
    every_part_accounted_for,
    sets_renewed_together,
    parts_in_place,
    pairings_hold,
)


def areas_are_ready(situation: Situation) -> list[Blocker]:
    others = [situation.of(area) for area in situation.areas if area.code != ENGINE]
    waiting = [each.area for each in others if each.area.stage != AREA_STAGES[-1]]
    told = [Blocker(f"{area.name} stands in {area.stage} and must be assembled first.", "area", area.pk) for area in waiting]
    ready = [each for each in others if each.area not in waiting]
    return told + [blocker for each in ready for gate in READY for blocker in gate(each)]
