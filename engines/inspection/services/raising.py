"""Something is not as it must be: it gets a number, and blocks until it is decided."""

from collections.abc import Sequence
from datetime import datetime

from django.db import transaction
from django.db.models import Max

from engines.inspection.errors import FieldRefused, RaisedAlready
from engines.inspection.facts import Inspection, inspection_of
from engines.inspection.models import Discrepancy, Taken
from engines.inspection.standing import Requirement
from engines.visits.chains import chain_of
from engines.visits.models import Visit
from engines.visits.queries import locked_visit
from measurements.metrology.verdicts import GOOD, Verdict
from measurements.readings.models import Reading
from measurements.readings.shown import figures
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def raise_discrepancy(
    *,
    visit: Visit,
    area: str,
    words: str,
    line: str = "",
    place: str = "",
    reading: Reading | None = None,
    operation: str = "",
    by: Person,
    at: datetime,
) -> Discrepancy:
    """From a reading that is not good, or in words about a part or an area. Raises FieldRefused, RaisedAlready."""
    visit = locked_visit(visit.pk)
    now = inspection_of(visit)
    if reading is not None:
        found = _from_reading(now, reading, by, at)
    else:
        found = _in_words(now, area, line, place, words, operation, by, at)
    found.save(force_insert=True)
    record(Entry(chain=chain_of(visit), kind="discrepancy.raised", of=found), by=by.pk, at=at)
    return found


def discrepancies_from(now: Inspection, taken: Sequence[Taken], by: Person, at: datetime) -> list[Entry]:
    """One for each reading outside limits, saved within the caller's transaction; their entries."""
    outside = [each for each in taken if each.reading.verdict == Verdict.OUTSIDE]
    number = next_number(now.visit) if outside else 0
    found = [_about(now, each, number + index, by, at) for index, each in enumerate(outside)]
    Discrepancy.objects.bulk_create(found)
    return [Entry(chain=chain_of(now.visit), kind="discrepancy.raised", of=each) for each in found]


def next_number(visit: Visit) -> int:
    return (Discrepancy.objects.filter(visit=visit).aggregate(last=Max("number"))["last"] or 0) + 1


def _from_reading(now: Inspection, reading: Reading, by: Person, at: datetime) -> Discrepancy:
    taken = now.taken.get(reading.pk)
    if taken is None:
        raise FieldRefused("That reading belongs to another visit. Open it from the page of this one.")
    if reading.verdict in GOOD:
        raise FieldRefused("That reading is good. What else is wrong with the part is raised in words.")
    known = next((each for each in now.discrepancies if each.reading_id == reading.pk), None)
    if known:
        raise RaisedAlready(known.number)
    return _about(now, taken, next_number(now.visit), by, at)


def _about(now: Inspection, taken: Taken, number: int, by: Person, at: datetime) -> Discrepancy:
    requirement = now.rows.by_key[taken.row, taken.place]
    return Discrepancy(
        visit=now.visit,
        number=number,
        area=requirement.area,
        line=requirement.line,
        at=requirement.at,
        row=taken.row,
        place=taken.place,
        item=taken.item,
        reading=taken.reading,
        words=_words(now, requirement, taken.reading),
        raised_by=by,
        raised_at=at,
    )


def _words(now: Inspection, requirement: Requirement, reading: Reading) -> str:
    part = now.rows.data.line_by_code[requirement.line].name
    reason = f" ({reading.reason})" if reading.reason else ""
    return f"{part}, {reading.row.characteristic} at {requirement.place}: {figures(reading).read}, {reading.verdict}{reason}"[
        :600
    ]


def _in_words(
    now: Inspection, area: str, line: str, place: str, words: str, operation: str, by: Person, at: datetime
) -> Discrepancy:
    if not words.strip():
        raise FieldRefused("Say what is wrong, so that whoever decides can see it before them.")
    if area not in now.rows.data.area_by_code:
        raise FieldRefused("Choose the area that it was seen on.")
    part = now.rows.data.line_by_code.get(line)
    if line and (part is None or part.area != area or place not in part.places):
        raise FieldRefused("The parts list has no such part at that position of this area. Choose it from the list.")
    tagged = now.tagged.get((line, place))
    return Discrepancy(
        visit=now.visit,
        number=next_number(now.visit),
        area=area,
        line=line,
        at=place,
        item=tagged.item if tagged else None,
        operation=operation,
        words=words.strip()[:600],
        raised_by=by,
        raised_at=at,
    )
