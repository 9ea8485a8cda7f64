"""What a two-point or three-point set-up sees of a lobed surface, and what it is blind to."""

import math

from measurements.metrology.errors import BadFigure, NoAnswer
from measurements.metrology.figures import real, real_not_negative, whole_number

BLIND = 1e-9
MOST_LOBES = 500


def two_point_sensitivity(lobes: int) -> float:
    """Indicated change of diameter for each unit of peak-to-valley form: 2 for even lobes, 0 for odd ones.

    Units: none. Raises: BadFigure below one lobe. Source: geometry.
    """
    return 2.0 if _lobes(lobes) % 2 == 0 else 0.0


def three_point_sensitivity(lobes: int) -> float:
    """Indicated change of diameter, in a bore gauge with three contacts 120 degrees apart, for each unit of peak-to-valley form.

    2 where the number of lobes divides by three, 0 for any other: an oval bore looks round to such a gauge.

    Units: none. Raises: BadFigure below one lobe. Source: own derivation: the mean of three radii 120 degrees apart keeps only
    harmonics of three.
    """
    return 2.0 if _lobes(lobes) % 3 == 0 else 0.0


def vee_sensitivity(lobes: int, included_angle_deg: float) -> float:
    """Signed indicated run-out in a vee block, indicator on the bisector, for each unit of peak-to-valley form.

    Units: degrees between the faces of the vee. Raises: BadFigure for an angle outside 0 to 180 or fewer than one lobe.
    Source: own derivation, 1 + cos(n(90 + a)) / sin a with a half the included angle.
    """
    angle = real(included_angle_deg, "the included angle")
    if not 0 < angle < 180:
        raise BadFigure("The angle of a vee block lies between 0 and 180 degrees: read it off the block.")
    half = math.radians(angle) / 2
    return 1 + math.cos(_lobes(lobes) * (math.pi / 2 + half)) / math.sin(half)


def blind_lobes(included_angle_deg: float, up_to: int = 12) -> tuple[int, ...]:
    """Numbers of lobes, from two, that a vee block of this angle does not show at all.

    Units: degrees. Raises: as `vee_sensitivity`. Source: as `vee_sensitivity`.
    """
    counts = range(2, _lobes(up_to) + 1)
    return tuple(lobes for lobes in counts if abs(vee_sensitivity(lobes, included_angle_deg)) < BLIND)


def form_from_vee(indicated: float, lobes: int, included_angle_deg: float) -> float:
    """Peak-to-valley form of a surface with a known number of lobes, from the run-out it shows in a vee block.

    Units: the unit of the reading. Raises: NoAnswer when the block is blind to that number of lobes, BadFigure.
    Source: as `vee_sensitivity`.
    """
    factor = abs(vee_sensitivity(lobes, included_angle_deg))
    if factor < BLIND:
        raise NoAnswer(f"A {included_angle_deg:g} degree vee does not show {lobes} lobes: use another angle or centres.")
    return real_not_negative(indicated, "the indicated run-out") / factor


def _lobes(lobes: int) -> int:
    return whole_number(lobes, "The number of lobes", 1, MOST_LOBES)
