"""The kinds of step by name."""

from engines.steps.kinds.accessory_fate import AccessoryFate
from engines.steps.kinds.adjust_and_select import AdjustAndSelect
from engines.steps.kinds.angular_separation import AngularSeparation
from engines.steps.kinds.cleaning import Cleaning
from engines.steps.kinds.closure_count import ClosureCount
from engines.steps.kinds.compression import Compression
from engines.steps.kinds.crack_test import CrackTest
from engines.steps.kinds.fit_check import FitCheck
from engines.steps.kinds.go_no_go import GoNoGo
from engines.steps.kinds.hand_seated_joint import HandSeatedJoint
from engines.steps.kinds.heat_or_chill_fit import HeatOrChillFit
from engines.steps.kinds.index_marks import IndexMarks
from engines.steps.kinds.install_item import InstallItem
from engines.steps.kinds.keyed_identity import KeyedIdentity
from engines.steps.kinds.locking import Locking
from engines.steps.kinds.lubricate_or_seal import LubricateOrSeal
from engines.steps.kinds.not_repairable import NotRepairable
from engines.steps.kinds.outside_work import OutsideWorkStep
from engines.steps.kinds.permitted_pairing import PermittedPairing
from engines.steps.kinds.photo import PhotoStep
from engines.steps.kinds.reading import ReadingStep
from engines.steps.kinds.renew_always import RenewAlways
from engines.steps.kinds.sign_off import SignOff
from engines.steps.kinds.stretch_group import StretchGroup
from engines.steps.kinds.strip_and_tag import StripAndTag
from engines.steps.kinds.torque_group import TorqueGroup
from engines.steps.kinds.visual_finding import VisualFinding
from engines.steps.work import Step

STEPS: dict[str, Step] = {
    step.name: step
    for step in (
        StripAndTag(),
        VisualFinding(),
        Cleaning(),
        CrackTest(),
        ReadingStep(),
        GoNoGo(),
        FitCheck(),
        OutsideWorkStep(),
        InstallItem(),
        RenewAlways(),
        NotRepairable(),
        KeyedIdentity(),
        HandSeatedJoint(),
        TorqueGroup(),
        StretchGroup(),
        Locking(),
        IndexMarks(),
        AngularSeparation(),
        PermittedPairing(),
        AdjustAndSelect(),
        LubricateOrSeal(),
        HeatOrChillFit(),
        ClosureCount(),
        Compression(),
        PhotoStep(),
        AccessoryFate(),
        SignOff(),
    )
}


def step_of(kind: str) -> Step:
    """Raises KeyError for a kind that no file describes; a pack that names one is refused when it is loaded."""
    return STEPS[kind]
