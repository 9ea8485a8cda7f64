"""What newer engine data means for the visits that were received under older data."""

from datetime import datetime

from django.db import transaction

from engines.catalogue.changes import LIMIT_ROW, WORDS, Change, changes_between
from engines.catalogue.data import PackData
from engines.catalogue.models import Pack
from engines.catalogue.queries import data_of
from engines.visits.chains import chain_of
from engines.visits.errors import FieldRefused, Settled
from engines.visits.models import ImpactLine, Visit
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def list_impact(*, pack: Pack, by: Person, at: datetime) -> list[ImpactLine]:
    """A line for each change between what a visit was received under and the newer `pack`, for open and released visits."""
    visits = list(Visit.objects.select_related("pack").filter(pack__model=pack.model).exclude(pack=pack).order_by("number"))
    older = {visit.pack_id: visit.pack for visit in visits}
    changed = {key: _changed(each, pack) for key, each in older.items()}
    lines = [
        ImpactLine(visit=visit, pack=pack, area=area, words=words, listed_at=at)
        for visit in visits
        for area, words in changed[visit.pack_id]
    ]
    ImpactLine.objects.bulk_create(lines)
    if lines:
        record(*(Entry(chain=chain_of(line.visit), kind="impact.listed", of=line) for line in lines), by=by.pk, at=at)
    return lines


def _changed(older: Pack, newer: Pack) -> list[tuple[str, str]]:
    """The area and the words of every change: worked out once for each older pack, however many visits pin it."""
    old, new = data_of(older), data_of(newer)
    return [(_area(change, new, old), _words(change)) for change in changes_between(old, new)]


def _words(change: Change) -> str:
    return (
        f"{change.kind} {change.code}, {change.what}: “{change.before or 'nothing'}” before, now “{change.after or 'nothing'}”"[
            :600
        ]
    )


def _area(change: Change, *packs: PackData) -> str:
    """The area that a change concerns; blank where it concerns the engine as a whole."""
    for data in packs:
        if change.kind == WORDS["operations"] and change.code in data.operation_by_code:
            return data.operation_by_code[change.code].area
        part = next((row["part"] for row in data.limits if row["row"] == change.code), "") if change.kind == LIMIT_ROW else ""
        line = part or (change.code if change.kind == WORDS["lines"] else "")
        if line in data.line_by_code:
            return data.line_by_code[line].area
    return ""


@transaction.atomic
def settle_impact(*, line: ImpactLine, words: str, by: Person, at: datetime) -> ImpactLine:
    """Say what is done about it, or why nothing; of a released engine too. Raises Settled, FieldRefused."""
    visit = Visit.objects.select_for_update().get(pk=line.visit_id)
    line = ImpactLine.objects.select_for_update().get(pk=line.pk)
    if line.settled_at:
        raise Settled
    if not words.strip():
        raise FieldRefused("Say what is done about the change, or why nothing needs to be.")
    line.settled_words, line.settled_by, line.settled_at = words.strip(), by, at
    line.save(update_fields=["settled_words", "settled_by", "settled_at"])
    record(Entry(chain=chain_of(visit), kind="impact.settled", of=line), by=by.pk, at=at)
    return line
