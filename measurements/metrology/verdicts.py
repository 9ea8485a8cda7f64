"""Is it good? Decided in whole numbers at one scale, on the least and the greatest of the values read.

Every rule asks whether *any* value lies beyond something, so the two extremes decide for all of them. Uncertainties come
squared: those of a fit add in squares, and comparing squares spares a root that could not be exact.
"""

from enum import StrEnum
from typing import NamedTuple

from measurements.metrology.errors import BadLimits
from measurements.metrology.figures import check_whole
from measurements.metrology.limits import Criterion, check_criterion
from measurements.metrology.rounding import to_step


class Verdict(StrEnum):
    WITHIN_NEW = "within new limits"
    SERVICEABLE = "serviceable"
    OUTSIDE = "outside limits"
    TOO_CLOSE = "too close to call"
    NOT_JUDGED = "not judged"


GOOD = frozenset({Verdict.WITHIN_NEW, Verdict.SERVICEABLE})


class Reason(StrEnum):
    UNCERTAINTY_NOT_STATED = "uncertainty not stated"
    GAUGE_CANNOT_DECIDE = "gauge cannot decide this"
    LIMIT_ON_THE_FIT = "limit is on the fit"
    COLUMNS_DISAGREE = "columns disagree"
    NO_LIMIT = "no limit"
    NO_MATE = "no reading of the mate"


class Judgement(NamedTuple):
    """A verdict with its reasons; `not judged` always has one."""

    verdict: Verdict
    reasons: tuple[Reason, ...] = ()


WITHIN_NEW = Judgement(Verdict.WITHIN_NEW)
SERVICEABLE = Judgement(Verdict.SERVICEABLE)
OUTSIDE = Judgement(Verdict.OUTSIDE)
TOO_CLOSE = Judgement(Verdict.TOO_CLOSE)
ON_THE_FIT = Judgement(Verdict.NOT_JUDGED, (Reason.LIMIT_ON_THE_FIT,))
CANNOT_DECIDE = Judgement(Verdict.NOT_JUDGED, (Reason.GAUGE_CANNOT_DECIDE,))
NO_LIMIT = Judgement(Verdict.NOT_JUDGED, (Reason.NO_LIMIT,))
NO_MATE = Judgement(Verdict.NOT_JUDGED, (Reason.NO_MATE,))
COLUMNS_DISAGREE = Judgement(Verdict.NOT_JUDGED, (Reason.COLUMNS_DISAGREE,))
GUARD_NEEDS_UNCERTAINTY = Judgement(Verdict.NOT_JUDGED, (Reason.UNCERTAINTY_NOT_STATED,))
WITHOUT_UNCERTAINTY = {
    judgement: Judgement(judgement.verdict, (*judgement.reasons, Reason.UNCERTAINTY_NOT_STATED))
    for judgement in (WITHIN_NEW, SERVICEABLE, OUTSIDE, ON_THE_FIT)
}
BY_WEIGHT = (
    *(WITHIN_NEW, SERVICEABLE, ON_THE_FIT, TOO_CLOSE, CANNOT_DECIDE, OUTSIDE),
    *(NO_LIMIT, COLUMNS_DISAGREE, GUARD_NEEDS_UNCERTAINTY),
)
"""On one criterion the judgement of several values is the heaviest that any of them gets by itself: that of an extreme."""


def judge(least: int, greatest: int, held: Criterion, u_squared: int) -> Judgement:
    """The verdict on values from `least` to `greatest`, all at the criterion's scale.

    Units: whole numbers at one scale of the row's unit; `u_squared` is the square of the expanded uncertainty (k = 2) at that
    scale, 0 where none is stated. Raises: BadFigure for anything but whole numbers, BadLimits and ReversedLimits for a
    least above a greatest.
    Source: simple acceptance, or a guard band of U, as JCGM 106, 8 and ISO 14253-1 describe them (from memory).
    """
    check_whole((least, greatest, u_squared))
    check_criterion(held)
    if least > greatest or u_squared < 0:
        raise BadLimits("The least value lies above the greatest, or an uncertainty is negative: read them again.")
    if held.columns_disagree:
        return COLUMNS_DISAGREE
    if held.new_min is None and held.new_max is None and held.low is None and held.high is None:
        return NO_LIMIT
    if u_squared and held.rule != "simple":
        return _guarded(least, greatest, held, u_squared)
    if held.rule == "guard":
        return GUARD_NEEDS_UNCERTAINTY
    if held.step:
        least, greatest = to_step(least, held.step), to_step(greatest, held.step)
    judgement = _simple(least, greatest, held)
    return judgement if held.rule else WITHOUT_UNCERTAINTY[judgement]


def _simple(least: int, greatest: int, held: Criterion) -> Judgement:
    if _any_beyond(least, greatest, held.low, held.high):
        return OUTSIDE
    if _any_beyond(least, greatest, held.wear_min, held.wear_max):
        return ON_THE_FIT
    if held.new_min is None and held.new_max is None:
        return SERVICEABLE
    return SERVICEABLE if _any_beyond(least, greatest, held.new_min, held.new_max) else WITHIN_NEW


def _guarded(least: int, greatest: int, held: Criterion, u_squared: int) -> Judgement:
    low, high = held.low, held.high
    room_below = None if low is None else least - low
    room_above = None if high is None else high - greatest
    if _far_beyond(room_below, u_squared) or _far_beyond(room_above, u_squared):
        return OUTSIDE
    if low is not None and high is not None and 4 * u_squared > (high - low) ** 2:
        return CANNOT_DECIDE
    if not (_clear(room_below, u_squared) and _clear(room_above, u_squared)):
        return TOO_CLOSE
    if _any_beyond(least, greatest, held.wear_min, held.wear_max):
        return ON_THE_FIT
    new_min, new_max = held.new_min, held.new_max
    if new_min is None and new_max is None:
        return SERVICEABLE
    clear_below = new_min is None or _clear(least - new_min, u_squared)
    return WITHIN_NEW if clear_below and (new_max is None or _clear(new_max - greatest, u_squared)) else SERVICEABLE


def _any_beyond(least: int, greatest: int, low: int | None, high: int | None) -> bool:
    return (low is not None and least < low) or (high is not None and greatest > high)


def _far_beyond(room: int | None, u_squared: int) -> bool:
    """Beyond the limit by more than U: `room` is the distance inside it, negative when beyond."""
    return room is not None and room < 0 and room * room > u_squared


def _clear(room: int | None, u_squared: int) -> bool:
    """Inside the limit by at least U, or there is no limit."""
    return room is None or (room >= 0 and room * room >= u_squared)
