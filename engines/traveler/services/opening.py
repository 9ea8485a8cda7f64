"""An engine is received: the visit and its operations, in one act."""

from datetime import datetime
from typing import Any

from django.db import transaction

from engines.traveler.services.planning import plan_due
from engines.visits.models import Visit
from engines.visits.services import receive_engine
from shopfloor.people.models import Person


@transaction.atomic
def open_visit(*, by: Person, at: datetime, **received: Any) -> Visit:
    """Takes what `receive_engine` takes, and raises what it raises."""
    visit = receive_engine(**received, by=by, at=at)
    plan_due(visit=visit, by=by, at=at)
    return visit
