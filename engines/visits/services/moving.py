"""Areas move. Called by `release` only, which asks the gates first, and for a bench by anybody who may move areas."""

from datetime import datetime

from django.db import transaction

from engines.visits.chains import chain_of
from engines.visits.errors import FieldRefused, NotAMove
from engines.visits.models import StageMove, VisitArea
from engines.visits.queries import locked_area
from engines.visits.stages import can_move
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def move_area(*, area: VisitArea, before: str, after: str, reason: str = "", by: Person, at: datetime) -> VisitArea:
    """To another stage. Raises NotAMove where the area no longer stands in `before`, or the move is none."""
    area = locked_area(area.pk)
    if area.stage != before or not can_move(before, after):
        raise NotAMove(area.name, area.stage, after)
    area.stage, area.since = after, at
    area.save(update_fields=["stage", "since"])
    move = StageMove.objects.create(area=area, before=before, after=after, reason=reason, moved_by=by, moved_at=at)
    chain = chain_of(area.visit)
    record(Entry(chain=chain, kind="area.moved", of=area), Entry(chain=chain, kind="stage.moved", of=move), by=by.pk, at=at)
    return area


@transaction.atomic
def move_to_bench(*, area: VisitArea, bench: str, by: Person, at: datetime) -> VisitArea:
    """Raises FieldRefused."""
    area = locked_area(area.pk)
    if not bench.strip():
        raise FieldRefused("Say which bench it goes to.")
    area.bench = bench.strip()
    area.save(update_fields=["bench"])
    record(Entry(chain=chain_of(area.visit), kind="area.benched", of=area), by=by.pk, at=at)
    return area
