"""An engine is received: the visit and its operations, in one act."""

from datetime import datetime
from typing import Any

from django.db import transaction

from engines.catalogue.queries import data_of
from engines.traveler.models import Operation
from engines.visits.chains import chain_of
from engines.visits.models import Visit
from engines.visits.services import receive_engine
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def open_visit(*, by: Person, at: datetime, **received: Any) -> Visit:
    """Takes what `receive_engine` takes, and raises what it raises."""
    visit = receive_engine(**received, by=by, at=at)
    areas = {area.code: area for area in visit.areas.all()}
    operations = [
        Operation(
            area=areas[planned.area],
            code=planned.code,
            order=order,
            stage=planned.stage,
            kind=planned.kind,
            title=planned.title,
            hold_point=planned.hold_point,
        )
        for order, planned in enumerate(data_of(visit.pack).operations, start=1)
        if planned.is_due(visit.scope, visit.reasons)
    ]
    Operation.objects.bulk_create(operations)
    chain = chain_of(visit)
    if operations:
        record(*(Entry(chain=chain, kind="operation.planned", of=each) for each in operations), by=by.pk, at=at)
    return visit
