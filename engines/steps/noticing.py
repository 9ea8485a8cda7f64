"""What is not as it must be at a step becomes a discrepancy, about the part at its position or about the operation's area."""

from datetime import datetime

from engines.inspection.ends import is_open
from engines.inspection.services import raise_discrepancy
from engines.steps.work import Spot, Work
from shopfloor.people.models import Person


def raise_at(work: Work, spot: Spot | None, words: str, *, by: Person, at: datetime) -> None:
    """The area is that of the part: on the whole engine every part is still one of its own area."""
    line, place = spot or ("", "")
    area = work.line(spot).area if spot else work.operation.area
    code = work.operation.code
    raise_discrepancy(visit=work.visit, area=area, line=line, place=place, words=words, operation=code, by=by, at=at)


def undecided_about(work: Work) -> list[str]:
    """What was brought up at this operation and nobody has decided yet, a sentence each."""
    code = work.operation.code
    found = [each for each in work.now.discrepancies if each.operation == code and is_open(work.now, each)]
    return [f"Discrepancy {each.number} is not decided: {each.words}" for each in found]
