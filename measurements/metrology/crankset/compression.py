"""Differential compression: what a cylinder holds of the air it is given, against a share and against a master orifice.

Caution: the air turns the propeller. The test belongs in trained hands, after the manufacturer's current instructions.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, NothingGiven
from measurements.metrology.figures import Exact, exact_not_negative, exact_positive
from measurements.metrology.held import hold
from measurements.metrology.limits import LimitRow
from measurements.metrology.verdicts import Judgement

LARGE_BORE_IN = 5
SMALL_ORIFICE_IN, LARGE_ORIFICE_IN = Fraction("0.040"), Fraction("0.060")
SUSPECT_PERCENT = 25
ZERO = Decimal(0)


@dataclass(frozen=True)
class Reading(Checked, positive=("supplied",), not_negative=("held",)):
    """Air supplied and air held, in one pressure unit."""

    supplied: Fraction
    held: Fraction

    @property
    def loss_percent(self) -> Fraction:
        """Share of the supply that leaks away, in percent, exactly."""
        return 100 * (self.supplied - self.held) / self.supplied

    @property
    def suspect(self) -> bool:
        """Whether more than a quarter is lost: run the engine and test again before deciding (AC 43.13-1B, 8-14)."""
        return self.loss_percent > SUSPECT_PERCENT


def reading(held: Exact, supplied: Exact = 80) -> Reading:
    """One cylinder's reading.

    Units: one pressure, psi unless both are given. Raises: BadFigure for a supply of zero and below, a negative reading, and one
    above the supply. Source: AC 43.13-1B, 8-14.
    """
    given, kept = exact_positive(supplied, "the air supplied"), exact_not_negative(held, "the air held")
    if kept > given:
        raise BadFigure("A cylinder cannot hold more than it is given: check both gauges against each other.")
    return Reading(given, kept)


def orifice_for(bore_in: Exact) -> Fraction:
    """Diameter of the tester's orifice for a bore.

    Units: inch. Raises: BadFigure for zero and below. Source: AC 43.13-1B, 8-14 (0.040 below 5.00 in, 0.060 from there on).
    """
    return SMALL_ORIFICE_IN if exact_positive(bore_in, "the bore") < LARGE_BORE_IN else LARGE_ORIFICE_IN


def judge_against_master(
    held: Mapping[str, Exact], master: Exact, supplied: Exact = 80, expanded_uncertainty: Exact = 0
) -> dict[str, Judgement]:
    """The verdict on every cylinder against the master orifice read with the same tester on the same day.

    A cylinder passes that holds at least what the master orifice holds; without an uncertainty the verdict says so.
    Units: one pressure; the uncertainty (k = 2) is that of the difference. Shape: cylinder to reading, at least one.
    Raises: NothingGiven, BadFigure as `reading`.
    Source: common practice, no source; decided as `verdicts.judge`.
    """
    if not held:
        raise NothingGiven("No cylinder was read: test at least one.")
    least = reading(master, supplied).held
    row = LimitRow(row="", part="cylinder", characteristic="air held above the master's", unit="psi", service_min=ZERO)
    return {
        cylinder: hold([reading(value, supplied).held - least], row, expanded_uncertainty) for cylinder, value in held.items()
    }


def least_share(pressures: Mapping[str, Exact]) -> tuple[str, Fraction]:
    """The weakest cylinder of a cranking test and its pressure as a share of the strongest's.

    Units: one pressure in; a share out. Shape: cylinder to pressure, at least two. Raises: NothingGiven, BadFigure.
    Source: common practice, no source.
    """
    if len(pressures) < 2:
        raise NothingGiven("Cylinders are compared with one another: read two at least.")
    read = {cylinder: exact_positive(value, f"the pressure of {cylinder}") for cylinder, value in pressures.items()}
    weakest = min(read, key=lambda cylinder: read[cylinder])
    return weakest, read[weakest] / max(read.values())
