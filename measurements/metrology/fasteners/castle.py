"""Castle nuts: tightened until the slot meets the hole, never slackened to meet it."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadLimits, NothingGiven
from measurements.metrology.figures import Exact, exact_not_negative, exact_positive, ordered


class Turn(StrEnum):
    """Which way the nut was last turned."""

    TIGHTENED = "tightened"
    BACKED_OFF = "backed off"


class NextStep(StrEnum):
    """What to do with the nut."""

    LOCK = "lock it"
    TIGHTEN_ON = "tighten to the next slot"
    CHANGE_PARTS = "no slot within the torque: slacken, change nut or washer as the data say, begin anew"
    OVER = "above the greatest torque: the joint is void, replace what the data say"
    VOID = "backed off: the joint is void, begin anew"


@dataclass(frozen=True)
class Window(Checked, positive=("least",), in_order=(("least", "greatest"),)):
    """Least and greatest torque to be read, drag included, in the unit of the torques."""

    least: Fraction
    greatest: Fraction


@dataclass(frozen=True)
class Stop(Checked, not_negative=("torque",)):
    """Where the nut was stopped: torque read, whether slot and hole meet, and which way it was turned."""

    torque: Exact
    aligned: bool
    turn: Turn = Turn.TIGHTENED


def window(minimum: Exact, maximum: Exact, drag: Exact = 0) -> Window:
    """From minimum and friction drag to maximum and friction drag.

    Units: one torque unit. Raises: BadLimits when reversed, BadFigure. Source: AC 43.13-1B, 7-40.
    """
    ordered(minimum, maximum, "the torques of the nut")
    extra = exact_not_negative(drag, "the drag")
    return Window(exact_positive(minimum, "the minimum") + extra, exact_positive(maximum, "the maximum") + extra)


def next_step(stops: Sequence[Stop], allowed: Window) -> NextStep:
    """What to do after the stops so far, oldest first; one stop backed off or above the greatest torque voids the joint.

    Units: one torque unit. Shape: at least one stop. Raises: NothingGiven, BadLimits, BadFigure. Source: AC 43.13-1B, 7-40 (start
    at the minimum, never exceed the maximum, never loosen to align).
    """
    if not stops:
        raise NothingGiven("No torque was read: tighten to the minimum first.")
    if allowed.least > allowed.greatest:
        raise BadLimits("The torques of the nut are reversed. Check them against the page.")
    torques = [exact_not_negative(stop.torque, "the torque") for stop in stops]
    if any(stop.turn is Turn.BACKED_OFF for stop in stops):
        return NextStep.VOID
    if max(torques) > allowed.greatest:
        return NextStep.OVER
    if stops[-1].aligned and torques[-1] >= allowed.least:
        return NextStep.LOCK
    return NextStep.CHANGE_PARTS if torques[-1] == allowed.greatest else NextStep.TIGHTEN_ON
