"""What a torque wrench must be set to when an adapter lengthens or shortens it."""

import math
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive

EXACT_COSINES = {0: Fraction(1), 60: Fraction(1, 2), 90: Fraction(0), 120: Fraction(-1, 2), 180: Fraction(-1)}


@dataclass(frozen=True)
class Torque(Checked):
    """A torque in the unit asked with, and whether it is exact; where it is not, the cosine was rounded in its 16th digit."""

    value: Fraction
    exact: bool


def setting_for(wanted: Exact, wrench_length: Exact, adapter_length: Exact, angle_deg: Exact = 0) -> Torque:
    """What to set the wrench to so that the fastener gets the torque wanted.

    Units: torque in one unit; both lengths in one unit, the wrench from the middle of the handle to the centre of its square, the
    adapter from there to the centre of the fastener; degrees from straight ahead (0) over square (90) to pointing back (180).
    Raises: NoAnswer where the adapter points back to the hand or beyond, BadFigure.
    Source: TM 9-254, figures 45 and 46; TM 1-1500-204-23-9, 8-5 (shortened lever).
    """
    share, known = _lengthening(wrench_length, adapter_length, angle_deg)
    return Torque(exact_positive(wanted, "the torque wanted") / share, known)


def applied_by(setting: Exact, wrench_length: Exact, adapter_length: Exact, angle_deg: Exact = 0) -> Torque:
    """The torque that the fastener gets at a setting.

    Units: that of the setting; lengths in one unit; degrees. Raises: as `setting_for`. Source: TM 9-254, figures 45 and 46.
    """
    share, known = _lengthening(wrench_length, adapter_length, angle_deg)
    return Torque(exact_positive(setting, "the setting") * share, known)


def _lengthening(wrench_length: Exact, adapter_length: Exact, angle_deg: Exact) -> tuple[Fraction, bool]:
    wrench = exact_positive(wrench_length, "the length of the wrench")
    adapter = exact_not_negative(adapter_length, "the length of the adapter")
    turned = exact(angle_deg, "the angle") % 360
    angle = min(turned, 360 - turned)
    known = EXACT_COSINES.get(int(angle)) if angle.denominator == 1 else None
    cosine = Fraction(math.cos(math.radians(angle))) if known is None else known
    share = (wrench + adapter * cosine) / wrench
    if share <= 0:
        raise NoAnswer("The adapter points back past the hand: no setting turns the fastener. Turn it or take a shorter one.")
    return share, known is not None or not adapter
