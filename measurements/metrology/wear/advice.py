"""What the rate of wear advises, beside a verdict. The verdict is handed on as it came."""

from dataclasses import dataclass
from enum import StrEnum

from measurements.metrology.checked import Checked
from measurements.metrology.errors import BadFigure
from measurements.metrology.figures import Exact, real
from measurements.metrology.verdicts import GOOD, Verdict
from measurements.metrology.wear.forecast import Estimate, probability_within


class Outlook(StrEnum):
    """What to expect until the next overhaul."""

    LASTS = "likely to stay serviceable until the next overhaul"
    DOUBTFUL = "may not stay serviceable until the next overhaul"
    FAILS = "likely to leave its limits before the next overhaul"
    UNKNOWN = "wear cannot be foretold"
    NOT_ASKED = "not asked: the verdict stands"


@dataclass(frozen=True)
class Advice(Checked):
    """The verdict, unchanged, with the outlook and the probability behind it (None where none was worked out)."""

    verdict: Verdict
    outlook: Outlook
    probability: float | None = None


def advise(verdict: Verdict, expected: Estimate | None, low: Exact | None, high: Exact | None, enough: float) -> Advice:
    """Advice from the reading expected at the next overhaul; only a part that is good now is asked about.

    `enough` is the probability, from approved data, from which a part is called likely to last; one minus it, likely to fail.

    Units: those of the estimate; a probability. Raises: BadFigure for `enough` outside 0.5 to 1, NothingGiven without a limit,
    BadLimits. Source: TM 55-1905-220-14-4, 3-6 (5): a used part may go back if it keeps within its maximum until then.
    """
    level = real(enough, "the probability that is enough")
    if not 0.5 <= level < 1:
        raise BadFigure("The probability that is enough lies from 0.5 up to 1, such as 0.95.")
    if verdict not in GOOD:
        return Advice(verdict, Outlook.NOT_ASKED)
    if expected is None or expected.error is None:
        return Advice(verdict, Outlook.UNKNOWN)
    probability = probability_within(expected, low, high)
    if probability >= level:
        return Advice(verdict, Outlook.LASTS, probability)
    return Advice(verdict, Outlook.FAILS if probability <= 1 - level else Outlook.DOUBTFUL, probability)
