"""What a customer may be shown, and what waits for whose answer."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db.models import QuerySet

from engines.benches.queries.board import AreaCell, BoardLine
from engines.catalogue.data import stages_of
from engines.inspection.models import Discrepancy, WorkAsked
from engines.inspection.queries import unanswered_requests
from engines.steps.spots import as_value
from engines.traveler.models import Entry
from engines.visits.models import Photo
from engines.visits.queries import photos
from shopfloor.documents.models import Document, StoredFile
from shopfloor.documents.queries import newest_for
from shopfloor.people.models import Person

MOST, MOST_PHOTOS, EACH = 50, 200, 6


@dataclass(frozen=True)
class Waiting:
    """A request that nobody has answered, and for how many days."""

    asked: WorkAsked
    days: int


@dataclass(frozen=True)
class Stretch:
    """An area on its way: the how-manieth stage it stands in, of how many."""

    cell: AreaCell
    stage: int
    stages: int


@dataclass(frozen=True)
class Progress:
    """An engine as its customer sees it: every area on its way, the newest photos and papers."""

    line: BoardLine
    areas: list[Stretch]
    photos: list[Photo]
    papers: list[Document]


def waiting_for_answer(person: Person, at: datetime) -> list[Waiting]:
    return [Waiting(each, (at - each.asked_at).days) for each in unanswered_requests(person)[:MOST]]


def progress_of(person: Person, lines: list[BoardLine]) -> list[Progress]:
    """Two queries, however many engines."""
    taken, made = _photos(lines), _papers(person, lines)
    return [
        Progress(
            line,
            [_stretch(cell) for cell in line.cells],
            taken[line.visit.pk][:EACH],
            made[str(line.visit.pk)][:EACH],
        )
        for line in lines
    ]


def _stretch(cell: AreaCell) -> Stretch:
    stages = stages_of(cell.area.code)
    return Stretch(cell, stages.index(cell.area.stage) + 1, len(stages))


def photos_to_show(found: Discrepancy) -> dict[str, str]:
    """What may be shown of a discrepancy, by SHA-256: the photos at the operation that found it, then those of the visit."""
    at_the_operation = dict.fromkeys(_evidence(found), "taken where it was found")
    return at_the_operation | {each.file.sha256: each.words for each in photos(found.visit)[: EACH * 2]}


def files_of(hashes: Iterable[str]) -> list[StoredFile]:
    return list(StoredFile.objects.filter(sha256__in=list(hashes)).order_by("id"))


def stored(asked: WorkAsked) -> QuerySet[StoredFile]:
    return StoredFile.objects.filter(sha256__in=asked.photos)


def _evidence(found: Discrepancy) -> list[str]:
    if not found.operation:
        return []
    entries = Entry.objects.filter(operation__area__visit=found.visit_id, operation__code=found.operation)
    spot = as_value((found.line, found.at)) if found.line else ""
    here = (each.content for each in entries)
    return [content["photo"] for content in here if content.get("photo") and content.get("spot", "") == spot]


def _photos(lines: list[BoardLine]) -> dict[UUID, list[Photo]]:
    grouped: dict[UUID, list[Photo]] = defaultdict(list)
    for photo in Photo.objects.filter(visit__in=[line.visit.pk for line in lines]).order_by("-taken_at", "-id")[:MOST_PHOTOS]:
        grouped[photo.visit_id].append(photo)
    return grouped


def _papers(person: Person, lines: list[BoardLine]) -> dict[str, list[Document]]:
    grouped: dict[str, list[Document]] = defaultdict(list)
    for paper in newest_for(person).filter(subject__in=[str(line.visit.pk) for line in lines])[:MOST_PHOTOS]:
        grouped[paper.subject].append(paper)
    return grouped
