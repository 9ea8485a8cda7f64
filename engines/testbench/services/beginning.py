"""A run is begun."""

from datetime import datetime

from django.db import IntegrityError, transaction

from engines.testbench.errors import NoSchedule, NotInTest, RunGoesOn
from engines.testbench.models import Run
from engines.testbench.queries import engine_area, last_run, schedule_of
from engines.visits.chains import chain_of
from engines.visits.models import Visit
from engines.visits.queries import locked_visit
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def begin_run(*, visit: Visit, by: Person, at: datetime) -> Run:
    """Raises NoSchedule, NotInTest, RunGoesOn, Closed."""
    visit = locked_visit(visit.pk)
    check_can_run(visit)
    before = last_run(visit)
    if before and before.ended_at is None:
        raise RunGoesOn(before.number)
    number = before.number + 1 if before else 1
    try:
        with transaction.atomic():
            run = Run.objects.create(visit=visit, number=number, begun_by=by, begun_at=at)
    except IntegrityError:
        raise RunGoesOn(number) from None
    record(Entry(chain=chain_of(visit), kind="run.begun", of=run), by=by.pk, at=at)
    return run


def check_can_run(visit: Visit) -> None:
    """Raises NoSchedule, NotInTest."""
    if not schedule_of(visit).steps:
        raise NoSchedule(visit.pack.model.code)
    area = engine_area(visit)
    if area is None or area.stage != "test":
        raise NotInTest(area.stage if area else "no stage")
