"""What the least and the greatest value say of a reading.

Every rule asks whether any value lies beyond something, so a reading gets the heavier judgement and the lesser conformity of
its two ends. Gauges read in steps: the same ends come again and again, and what one says is found once.
"""

from collections.abc import Sequence
from typing import NamedTuple

from measurements.judge.lines import Wording, judged, written
from measurements.judge.scales import Scale
from measurements.metrology.verdicts import BY_WEIGHT, WITHOUT_UNCERTAINTY

WEIGHT = {judgement: weight for weight, judgement in enumerate(BY_WEIGHT)}
WEIGHT |= {without: WEIGHT[judgement] for judgement, without in WITHOUT_UNCERTAINTY.items()}


class End(NamedTuple):
    """One value and what it says by itself; texts as they are written."""

    text: str
    weight: int
    verdict: str
    reason: str
    chance: float
    conformity: str


class Said(NamedTuple):
    """What is said of a reading: its verdict, and its line of the answer from `minimum` on."""

    verdict: str
    text: str


class Way:
    """A row read in one unit to so many decimals, with one uncertainty. Whole numbers as typed, `u` 0 where not stated."""

    def __init__(self, scale: Scale, u: int, wording: Wording) -> None:
        self.typed, self.u = scale.typed[0], u
        self._scale, self._factor, self._wording = scale, scale.values[0], wording
        self._u_squared = (u * scale.uncertainties[0]) ** 2
        self._alone: dict[int, Said] = {}
        self._ends: dict[int, End] = {}
        self._means: dict[tuple[int, int], str] = {}

    @property
    def kept(self) -> int:
        """How much is remembered."""
        return 1 + len(self._alone) + len(self._ends) + len(self._means)

    def said(self, in_order: Sequence[int]) -> Said:
        """What is said of values that stand in order, at least one."""
        least, greatest = in_order[0], in_order[-1]
        if least == greatest:
            return self._alone.get(least) or self._say_alone(least)
        low, high = self._ends.get(least) or self._end(least), self._ends.get(greatest) or self._end(greatest)
        heavier = low if low.weight > high.weight else high
        lesser = low if low.chance < high.chance else high
        of_all = sum(in_order), len(in_order)
        mean = self._means.get(of_all) or self._mean(of_all)
        return Said(heavier.verdict, f"{low.text},{high.text},{mean},{heavier.verdict},{lesser.conformity},{heavier.reason}")

    def _say_alone(self, typed: int) -> Said:
        end, mean = self._end(typed), self._mean((typed, 1))
        text = f"{end.text},{end.text},{mean},{end.verdict},{end.conformity},{end.reason}"
        said = self._alone[typed] = Said(end.verdict, text)
        return said

    def _end(self, typed: int) -> End:
        value = typed * self._factor
        judgement, conformity = judged(self._scale.held, value, value, self._u_squared)
        reason = written(self._wording.of(judgement.reasons))
        text, chance = self._scale.text(value), float(conformity or 1)
        end = self._ends[typed] = End(text, WEIGHT[judgement], judgement.verdict, reason, chance, conformity)
        return end

    def _mean(self, of_all: tuple[int, int]) -> str:
        total, count = of_all
        mean = self._means[of_all] = self._scale.mean_text(total * self._factor, count)
        return mean
