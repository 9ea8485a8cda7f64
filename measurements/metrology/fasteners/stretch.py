"""Stretch of a bolt, judged, and what a retry rule from the data asks for next."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure, BadLimits, NoAnswer, NothingGiven
from measurements.metrology.figures import Exact, exact, exact_not_negative, exact_positive, ordered


class Finding(StrEnum):
    """Where a stretch lies."""

    UNDER = "under"
    WITHIN = "within limits"
    OVER = "over"


class After(StrEnum):
    """What a step of the rule leads to."""

    AGAIN = "measure again"
    ANEW = "begin anew"  # another bolt: earlier findings no longer count
    END = "no further try"


class Outcome(StrEnum):
    """How the tries stand."""

    ACCEPT = "accept"
    TRY_AGAIN = "try again"
    STOP = "stop"
    NO_STEP_LEFT = "the data give no further step"


@dataclass(frozen=True)
class Step(Checked):
    """One thing to do, in the words of the data, and what it leads to."""

    action: str
    after: After = After.AGAIN


@dataclass(frozen=True)
class RetryRule(Checked):
    """What the data ask for at the first, second … finding under and over since the tries began or began anew."""

    under: tuple[Step, ...] = ()
    over: tuple[Step, ...] = ()


@dataclass(frozen=True)
class Decision(Checked):
    """The last finding, how the tries stand, and what to do (blank when there is nothing)."""

    finding: Finding
    outcome: Outcome
    action: str = ""


@dataclass(frozen=True)
class PermanentSet(Checked):
    """How much longer a bolt has stayed, in the unit of its readings, and whether that is within its limit."""

    amount: Fraction
    within: bool


def stretch_read(zero: Exact, tight: Exact) -> Fraction:
    """Stretch from the reading of the loose bolt and that of the tight one.

    Units: one length. Raises: BadFigure where the bolt reads shorter when tight. Source: TM 55-1905-223-24-1 (stretch = tight -
    zero).
    """
    stretch = exact(tight, "the reading when tight") - exact(zero, "the zero")
    if stretch < 0:
        raise BadFigure("The bolt reads shorter when tight than when loose: zero the gauge and read again.")
    return stretch


def find(stretch: Exact, low: Exact | None, high: Exact | None) -> Finding:
    """Where a stretch lies between its limits, which belong to within.

    Units: one length. Raises: BadLimits for reversed limits or none, BadFigure. Source: TM 55-1905-223-24-1.
    """
    least, greatest = ordered(low, high, "the limits of stretch")
    if least is None and greatest is None:
        raise BadLimits("The stretch has no limit: enter it from the data.")
    value = exact_not_negative(stretch, "the stretch")
    if least is not None and value < least:
        return Finding.UNDER
    return Finding.OVER if greatest is not None and value > greatest else Finding.WITHIN


def decide(stretches: Sequence[Exact], low: Exact | None, high: Exact | None, rule: RetryRule) -> Decision:
    """What follows from the stretches read so far, oldest first, by the rule of the data.

    Units: one length. Shape: at least one stretch. Raises: NothingGiven, BadLimits, BadFigure, NoAnswer where readings go on
    after one that was accepted or that ended the tries. Source: TM 55-1905-223-24-1 is one such rule; the mechanism knows none.
    """
    if not stretches:
        raise NothingGiven("No stretch was read: tighten, loosen, zero, tighten and read as the data say.")
    seen = {Finding.UNDER: 0, Finding.OVER: 0}
    decision = Decision(Finding.WITHIN, Outcome.TRY_AGAIN)
    for number, stretch in enumerate(stretches, start=1):
        if decision.outcome is not Outcome.TRY_AGAIN:
            raise NoAnswer(f"Reading {number} comes after the tries had ended ({decision.outcome}): take it out.")
        finding = find(stretch, low, high)
        if finding is Finding.WITHIN:
            decision = Decision(finding, Outcome.ACCEPT)
            continue
        steps = rule.under if finding is Finding.UNDER else rule.over
        if seen[finding] >= len(steps):
            decision = Decision(finding, Outcome.NO_STEP_LEFT)
            continue
        step = steps[seen[finding]]
        decision = Decision(finding, Outcome.STOP if step.after is After.END else Outcome.TRY_AGAIN, step.action)
        seen = dict.fromkeys(seen, 0) if step.after is After.ANEW else {**seen, finding: seen[finding] + 1}
    return decision


def permanent_set(free_before: Exact, free_now: Exact, most: Exact) -> PermanentSet:
    """How much a bolt has stayed longer: free length now less free length before use, against the most that is allowed.

    Units: one length. Raises: BadFigure. Source: definition (permanent elongation); the limit is data.
    """
    amount = exact_positive(free_now, "the free length now") - exact_positive(free_before, "the free length before")
    return PermanentSet(amount, amount <= exact_not_negative(most, "the most permanent set"))
