"""Standings as lines of a page and as plain texts for a signature."""

from dataclasses import dataclass

from engines.inspection.standing import Standing
from engines.steps.work import Content, Work
from measurements.limits.models import LimitRow
from measurements.readings.models import Reading
from measurements.readings.shown import Shown, figures


@dataclass(frozen=True)
class DrawnLine:
    standing: Standing
    row: LimitRow
    part: str
    mark: str
    reading: Reading | None
    shown: Shown | None


def drawn(work: Work, standing: Standing) -> DrawnLine:
    requirement = standing.requirement
    reading = work.now.reading_of(standing)
    tagged = work.now.tagged.get((requirement.line, requirement.at))
    item = tagged.item if tagged else None
    return DrawnLine(
        standing=standing,
        row=reading.row if reading else work.now.rows.any(requirement.row),
        part=work.data.line_by_code[requirement.line].name,
        mark=(item.serial or item.mark) if item else "",
        reading=reading,
        shown=figures(reading) if reading else None,
    )


def plain(work: Work, standing: Standing) -> Content:
    reading = work.now.reading_of(standing)
    return {
        "row": standing.requirement.row,
        "place": standing.requirement.place,
        "read": figures(reading).read if reading else "",
        "verdict": reading.verdict if reading else "",
        "state": str(standing.state),
    }
