"""Standings as lines of a page and as plain texts for a signature."""

from collections.abc import Iterable
from dataclasses import dataclass

from engines.inspection.standing import Standing, State
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


def not_asked_about(work: Work, standings: Iterable[Standing]) -> list[Reading]:
    """The readings among them that are not decided and have no discrepancy."""
    raised = {each.reading_id for each in work.now.discrepancies}
    waiting = [each for each in standings if each.state == State.UNDECIDED and each.read and each.read.id not in raised]
    return [reading for each in waiting if (reading := work.now.reading_of(each))]


def plain(work: Work, standing: Standing) -> Content:
    reading = work.now.reading_of(standing)
    return {
        "row": standing.requirement.row,
        "place": standing.requirement.place,
        "read": figures(reading).read if reading else "",
        "verdict": reading.verdict if reading else "",
        "state": str(standing.state),
    }
