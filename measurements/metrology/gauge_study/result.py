"""What a study of repeatability and reproducibility answers, whichever way it was worked out."""

import math
from dataclasses import dataclass

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import Exact, real_positive

CATEGORY_FACTOR = 1.41  # the root of two as the manual prints it


@dataclass(frozen=True)
class StudyResult(Checked, not_negative=("repeatability", "reproducibility", "interaction", "part")):
    """Standard deviations in the unit of the readings.

    `repeatability` is the equipment's (EV), `reproducibility` the appraisers' (AV), `interaction` that of appraiser with part
    (0 where it was pooled), `part` the parts' own (PV).
    """

    repeatability: float
    reproducibility: float
    interaction: float
    part: float

    @property
    def gauge(self) -> float:
        """Repeatability and reproducibility together (GRR), in the unit of the readings."""
        return math.hypot(self.repeatability, self.reproducibility, self.interaction)

    @property
    def total(self) -> float:
        """Total variation (TV), in the unit of the readings."""
        return math.hypot(self.gauge, self.part)


def percent_of_total(result: StudyResult, deviation: float) -> float:
    """A standard deviation of the study as a percentage of the total variation; percentages do not add up to 100.

    Units: the unit of the readings in, percent out. Raises: NoAnswer when nothing varied at all, BadFigure for a negative one.
    Source: AIAG MSA, 4th edition (from memory).
    """
    if result.total == 0:
        raise NoAnswer("Every reading is the same: the study says nothing. Take parts that differ, or a finer gauge.")
    return 100 * (0.0 if deviation == 0 else real_positive(deviation, "the deviation")) / result.total


def percent_of_tolerance(result: StudyResult, tolerance: Exact | float) -> float:
    """Six standard deviations of the gauge as a percentage of the tolerance (greatest less least limit).

    Units: the unit of the readings in, percent out. Raises: BadFigure for a tolerance of zero or below.
    Source: AIAG MSA, 4th edition (from memory).
    """
    return 600 * result.gauge / real_positive(tolerance, "the tolerance")


def categories(result: StudyResult) -> float:
    """How many groups of parts the gauge can tell apart, before it is cut to a whole number: 1.41 times PV over GRR.

    Units: none. Raises: NoAnswer when the gauge showed no variation. Source: AIAG MSA, 4th edition (from memory).
    """
    if result.gauge == 0:
        raise NoAnswer("The gauge showed no variation: it is too coarse for this study, or the readings were copied.")
    return CATEGORY_FACTOR * result.part / result.gauge


def distinct_categories(result: StudyResult) -> int:
    """Number of distinct categories (ndc): `categories` cut to a whole number, at least one.

    Units: none. Raises: as `categories`. Source: AIAG MSA, 4th edition (from memory).
    """
    return max(1, math.floor(categories(result)))
