"""One line of the answer, for a reading or for a fit: its figures, its verdict, its reasons."""

import csv
import io
import re
from functools import lru_cache
from typing import NamedTuple

from measurements.metrology.conformity import least_conformity
from measurements.metrology.limits import Criterion
from measurements.metrology.numbers import plain_float
from measurements.metrology.verdicts import COLUMNS_DISAGREE, Judgement, Reason, judge


class Answer(NamedTuple):
    """What is said of one reading or one fit; figures as text in the unit of the limit row."""

    minimum: str
    maximum: str
    mean: str
    verdict: str
    conformity: str
    reason: str


COLUMNS = ("row", "position", *Answer._fields)
Line = tuple[str, str, Answer]


MAY_NEED_MARKS = re.compile(r'[,"\r\n]')


def written(field: str) -> str:
    """One field as it stands in the answer: in quotation marks where it needs them."""
    return _as_csv_writes(field) if MAY_NEED_MARKS.search(field) else field


@lru_cache(maxsize=1024)
def _as_csv_writes(field: str) -> str:
    line = io.StringIO(newline="")
    csv.writer(line, lineterminator="\n").writerow((field, ""))
    return line.getvalue().removesuffix(",\n")


class Wording:
    """The reasons of one row in words, each set of reasons worded once. `fits` are the fits that name the row."""

    def __init__(self, fits: list[str]) -> None:
        self._fits = ", ".join(fits)
        self._worded: dict[tuple[Reason, ...], str] = {(): ""}

    def of(self, reasons: tuple[Reason, ...]) -> str:
        worded = self._worded.get(reasons)
        if worded is None:
            worded = self._worded[reasons] = "; ".join(map(self._one, reasons))
        return worded

    def _one(self, reason: Reason) -> str:
        return f"{reason}: {self._fits}" if reason is Reason.LIMIT_ON_THE_FIT and self._fits else reason


def judged(held: Criterion, least: int, greatest: int, u_squared: int) -> tuple[Judgement, str]:
    """The judgement and the conformity in words, all at the criterion's scale. Where columns disagree no limit is known."""
    judgement = judge(least, greatest, held, u_squared)
    if not u_squared or judgement is COLUMNS_DISAGREE:
        return judgement, ""
    conformity = least_conformity(least, greatest, held.low, held.high, u_squared)
    return judgement, "" if conformity is None else plain_float(conformity)
