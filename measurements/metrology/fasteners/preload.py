"""Torque and preload, by the nut factor: a rule of thumb that scatters with lubrication, never a limit."""

from fractions import Fraction

from measurements.metrology.figures import Exact, exact_positive


def torque_for_preload(preload: Exact, diameter: Exact, nut_factor: Exact) -> Fraction:
    """Torque that gives a preload: nut factor times force times nominal diameter.

    Units: torque is force times length, so lbf and in give lbf·in, N and m give N·m; the factor has none.
    Raises: BadFigure for zero and below. Source: nut-factor formula (Shigley, *Mechanical Engineering Design*, eq. 8-27).
    """
    factor, size = exact_positive(nut_factor, "the nut factor"), exact_positive(diameter, "the diameter")
    return factor * exact_positive(preload, "the preload") * size


def preload_from_torque(torque: Exact, diameter: Exact, nut_factor: Exact) -> Fraction:
    """Preload that a torque gives.

    Units, errors and source: as `torque_for_preload`.
    """
    factor, size = exact_positive(nut_factor, "the nut factor"), exact_positive(diameter, "the diameter")
    return exact_positive(torque, "the torque") / (factor * size)


def nut_factor_from(torque: Exact, preload: Exact, diameter: Exact) -> Fraction:
    """The nut factor of a joint whose torque and preload were both measured.

    Units, errors and source: as `torque_for_preload`.
    """
    size = exact_positive(diameter, "the diameter")
    return exact_positive(torque, "the torque") / (exact_positive(preload, "the preload") * size)
