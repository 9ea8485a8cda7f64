"""After a run that failed: the areas that the data name go back, their signatures are void, and the fault has a number."""

from datetime import datetime

from engines.catalogue.data import ENGINE
from engines.inspection.services import raise_discrepancy
from engines.testbench.models import Run
from engines.testbench.queries import schedule_of
from engines.traveler.services import reopen_from
from engines.visits.models import VisitArea
from engines.visits.services import move_area
from engines.visits.stages import can_move, earlier_stages
from shopfloor.people.models import Person

AREAS_TO, ENGINE_TO = "repair", "close-up"


def reopen_and_raise(run: Run, by: Person, at: datetime) -> None:
    """Areas go back to repair, the whole engine to close-up; one that stands there or earlier stays."""
    reason = f"Run {run.number} on the stand failed: {run.why}"[:400]
    named = {ENGINE: ENGINE_TO, **dict.fromkeys(schedule_of(run.visit).data.run_reopens, AREAS_TO)}
    areas = VisitArea.objects.filter(visit=run.visit, code__in=named).select_related("visit").order_by("order")
    for area in areas:
        _send_back(area, ENGINE_TO if area.code == ENGINE else named[area.code], reason, by, at)
    words = f"Run {run.number} on the stand failed. {run.why}"
    raise_discrepancy(visit=run.visit, area=ENGINE, words=words, by=by, at=at)


def _send_back(area: VisitArea, stage: str, reason: str, by: Person, at: datetime) -> None:
    if stage in earlier_stages(area.stage) and can_move(area.stage, stage):
        area = move_area(area=area, before=area.stage, after=stage, reason=reason, by=by, at=at)
    reopen_from(area=area, stage=stage, reason=reason, by=by, at=at)
