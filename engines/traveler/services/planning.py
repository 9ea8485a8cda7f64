"""Operations of the route are planned for a visit: at receiving, and again when something found gives it another reason."""

from datetime import datetime

from django.db import transaction

from engines.catalogue.data import Operation as Planned
from engines.traveler.models import Operation
from engines.traveler.queries import operations_of
from engines.visits.chains import chain_of
from engines.visits.models import Visit
from engines.visits.route import data_for
from engines.visits.services import add_reason
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def plan_due(*, visit: Visit, by: Person, at: datetime) -> list[Operation]:
    """Every operation that is due for the visit and that it does not have yet, each in its place of the route."""
    areas = {area.code: area for area in visit.areas.all()}
    known = {operation.code for operation in operations_of(visit)}
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
        for order, planned in enumerate(data_for(visit).operations, start=1)
        if planned.code not in known and planned.is_due(visit.scope, visit.reasons)
    ]
    Operation.objects.bulk_create(operations)
    chain = chain_of(visit)
    if operations:
        record(*(Entry(chain=chain, kind="operation.planned", of=each) for each in operations), by=by.pk, at=at)
    return operations


def follow_finding(visit: Visit, planned: Planned, by: Person, at: datetime) -> list[Operation]:
    """What an operation finds becomes a reason of the visit, and what is due for that reason is planned."""
    if not planned.finds or planned.finds in visit.reasons:
        return []
    return plan_due(visit=add_reason(visit=visit, reason=planned.finds, by=by, at=at), by=by, at=at)
