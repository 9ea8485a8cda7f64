"""The two moves of an area."""

from datetime import datetime

from django.db import transaction

from engines.catalogue.queries import data_of
from engines.parts.services import take_off
from engines.release.errors import AtTheEnd, Held, ReasonMissing
from engines.release.queries import blockers_of, situation_of
from engines.traveler.services import reopen_from
from engines.visits.models import VisitArea
from engines.visits.queries import locked_area
from engines.visits.services import move_area
from engines.visits.stages import next_stage
from shopfloor.people.models import Person


@transaction.atomic
def advance(*, area: VisitArea, before: str, by: Person, at: datetime) -> VisitArea:
    """One stage on from `before`, the stage that the person saw. Leaving teardown, an area is apart: gaskets and small parts,
    which nobody tags, are off as well.

    Raises Held with every reason, AtTheEnd, NotAMove.
    """
    area = locked_area(area.pk)
    after = next_stage(area.stage)
    if after is None:
        raise AtTheEnd(area.name)
    if area.stage == before and (blockers := blockers_of(situation_of(area))):
        raise Held(area.name, after, blockers)
    moved = move_area(area=area, before=before, after=after, by=by, at=at)
    if before == "teardown":
        visit = moved.visit
        lines = [line.line for line in data_of(visit.pack).lines if line.area == moved.code]
        take_off(root=visit.engine.item, lines=lines, reason="taken off at teardown", by=by, at=at)
    return moved


@transaction.atomic
def send_back(*, area: VisitArea, before: str, after: str, reason: str, by: Person, at: datetime) -> VisitArea:
    """To an earlier stage; its signed operations from there on are open again. Raises ReasonMissing, NotAMove."""
    area = locked_area(area.pk)
    if not reason.strip():
        raise ReasonMissing
    moved = move_area(area=area, before=before, after=after, reason=reason.strip()[:400], by=by, at=at)
    reopen_from(area=moved, stage=after, reason=reason, by=by, at=at)
    return moved
