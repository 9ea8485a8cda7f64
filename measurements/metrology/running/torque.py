"""Power, torque and speed."""

import math
from typing import SupportsFloat

from measurements.metrology.figures import real_not_negative, real_positive

FOOT_POUNDS_PER_MINUTE = 33_000  # one horsepower, by definition 550 ft lbf/s


def torque_of(power_hp: SupportsFloat, rpm: SupportsFloat) -> float:
    """Torque at which a speed gives a power.

    Units: hp and rpm in, lbf ft out. Raises: BadFigure for a negative power or a speed of zero and below. Source: definition.
    """
    per_turn = FOOT_POUNDS_PER_MINUTE / (2 * math.pi)
    return real_not_negative(power_hp, "the power") * per_turn / real_positive(rpm, "the speed")


def power_of(torque_lbf_ft: SupportsFloat, rpm: SupportsFloat) -> float:
    """Power of a torque at a speed.

    Units: lbf ft and rpm in, hp out. Raises: BadFigure for a negative torque or speed. Source: definition.
    """
    work = real_not_negative(torque_lbf_ft, "the torque") * real_not_negative(rpm, "the speed")
    return work * 2 * math.pi / FOOT_POUNDS_PER_MINUTE
