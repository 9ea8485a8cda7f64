"""One file for each gate, and which gates stand at the end of which stage."""

from engines.release.blockers import Gate
from engines.release.gates.asked import requests_answered
from engines.release.gates.assembled import READY, areas_are_ready
from engines.release.gates.data import changes_settled
from engines.release.gates.decided import discrepancies_decided, readings_decided
from engines.release.gates.done import decisions_carried_out, everything_good
from engines.release.gates.outside import read_again_after_vendor
from engines.release.gates.parts import every_part_accounted_for, every_part_tagged
from engines.release.gates.run import run_passed
from engines.release.gates.signed import operations_complete

ALWAYS: tuple[Gate, ...] = (operations_complete, changes_settled)
ALL_GOOD: tuple[Gate, ...] = (
    everything_good,
    read_again_after_vendor,
    discrepancies_decided,
    requests_answered,
    decisions_carried_out,
    every_part_accounted_for,
)
GATES: dict[str, tuple[Gate, ...]] = {
    "receiving": ALWAYS,
    "teardown": (*ALWAYS, every_part_tagged),
    "cleaning": ALWAYS,
    "inspection": (*ALWAYS, every_part_tagged, readings_decided, discrepancies_decided, requests_answered),
    "repair": (*ALWAYS, every_part_tagged, *ALL_GOOD),
    "assembly": READY,
    "close-up": (*ALWAYS, discrepancies_decided, requests_answered, decisions_carried_out, areas_are_ready),
    "test": (*ALWAYS, run_passed, discrepancies_decided, requests_answered, decisions_carried_out, areas_are_ready),
    "final inspection": (*ALWAYS, run_passed, discrepancies_decided, requests_answered, decisions_carried_out, areas_are_ready),
    "release": (*READY, run_passed, areas_are_ready),
}
