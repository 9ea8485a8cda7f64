"""Valve timing: when each valve opens and closes, how long it stays open, and how long both are."""

from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import Exact, exact

HALF_TURN = 180


@dataclass(frozen=True)
class ValveTiming(Checked):
    """Degrees of crank. Opening counts before a dead centre, closing after it; negative is the other side of it."""

    intake_opens_before_top: Fraction
    intake_closes_after_bottom: Fraction
    exhaust_opens_before_bottom: Fraction
    exhaust_closes_after_top: Fraction

    @property
    def intake_duration(self) -> Fraction:
        """Degrees of crank for which the intake valve is open."""
        return self.intake_opens_before_top + HALF_TURN + self.intake_closes_after_bottom

    @property
    def exhaust_duration(self) -> Fraction:
        """Degrees of crank for which the exhaust valve is open."""
        return self.exhaust_opens_before_bottom + HALF_TURN + self.exhaust_closes_after_top

    @property
    def overlap(self) -> Fraction:
        """Degrees of crank for which both are open; negative where one closes before the other opens."""
        return self.intake_opens_before_top + self.exhaust_closes_after_top

    @property
    def intake_centre(self) -> Fraction:
        """Middle of the intake's opening, degrees after top centre."""
        return self.intake_duration / 2 - self.intake_opens_before_top

    @property
    def exhaust_centre(self) -> Fraction:
        """Middle of the exhaust's opening, degrees before top centre."""
        return self.exhaust_duration / 2 - self.exhaust_closes_after_top


def valve_timing(
    intake_opens_before_top: Exact,
    intake_closes_after_bottom: Exact,
    exhaust_opens_before_bottom: Exact,
    exhaust_closes_after_top: Exact,
) -> ValveTiming:
    """The timing from the four events.

    Units: degrees of crank. Raises: BadFigure for an event more than 180 degrees from its dead centre, and for a valve that
    would never open. Source: definitions (TM 9-8000, figures 2-54 and 2-55).
    """
    events = tuple(
        _event(degrees, what)
        for degrees, what in (
            (intake_opens_before_top, "intake opening"),
            (intake_closes_after_bottom, "intake closing"),
            (exhaust_opens_before_bottom, "exhaust opening"),
            (exhaust_closes_after_top, "exhaust closing"),
        )
    )
    timing = ValveTiming(*events)
    if min(timing.intake_duration, timing.exhaust_duration) <= 0:
        raise BadFigure("A valve would close before it opens: check which dead centre each reading belongs to.")
    return timing


def _event(degrees: Exact, what: str) -> Fraction:
    angle = exact(degrees, what)
    if abs(angle) > HALF_TURN:
        raise BadFigure(f"{what} lies more than 180 degrees from its dead centre: check which one it was read from.")
    return angle
