"""What is at hand at each step of a walk: the visit, its operations and areas, and the pages that lie open."""

from typing import Any

from engines.traveler.models import Operation
from engines.traveler.queries import operations
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import areas
from shopfloor.people.models import Person
from tests.walking import planned
from tests.walking.clerk import Desk
from tests.walking.gates import LAST
from tests.walking.planned import Planned
from tests.walking.route import AFTER
from tests.walking.watch import value


class AtHand:
    visit: Visit | None = None
    is_closed = False
    planned: list[Planned] = []
    stages: dict[str, str] = {}

    def __init__(self) -> None:
        self.pages: list[tuple[Person, Planned, str]] = []  # who opened it, and the hash of what was shown
        self._areas: dict[str, VisitArea] = {}
        self._operations: dict[Any, Operation] = {}

    def take_up(self, visit: Visit) -> None:
        self.visit = visit
        self.pages.clear()
        self._operations.clear()
        self._areas = {area.code: area for area in areas().filter(visit=visit)}

    def look_around(self) -> None:
        if self.visit:
            self.planned, self.stages = planned.operations(self.visit.pk), planned.stages(self.visit.pk)
            self.is_closed = value("SELECT closed_at FROM visits_visit WHERE id = %s", self.visit.pk) is not None

    @property
    def desk(self) -> Desk:
        return Desk(self.visit.pk, self.visit.engine_id, self.visit.number)

    def instance(self, operation: Planned) -> Operation:
        """As somebody fetched it once: what a service rests on, it reads anew."""
        if operation.id not in self._operations:
            self._operations = {each.pk: each for each in operations().filter(area__visit=self.visit)}
        return self._operations[operation.id]

    def area(self, code: str) -> VisitArea:
        """As somebody fetched it once, standing where it stands now."""
        self._areas[code].stage = self.stages[code]
        return self._areas[code]

    def ready(self) -> list[Planned]:
        """Not signed, its area there, and everything before it complete."""
        complete = {each.code for each in self.planned if each.is_complete}
        known = {each.code for each in self.planned}
        waiting = [each for each in self.planned if not each.signed_by and each.stage == each.area_stage]
        return [each for each in waiting if set(AFTER[each.code]) & known <= complete]

    def too_early(self) -> list[Planned]:
        """What somebody in a hurry takes up: an operation of the stage that still waits, or that is not done; then any."""
        here = [each for each in self.planned if not each.signed_by and each.stage == each.area_stage]
        return [*here * 3, *self.planned]

    def in_a_hurry(self) -> list[str]:
        """Areas that somebody in a hurry moves on: all is signed there, or much of it; then any."""
        waiting = {each.area for each in self.planned if not each.signed_by and each.stage == each.area_stage}
        return [*[code for code in self.stages if code not in waiting and self.stages[code] != LAST[code]] * 3, *self.stages]

    def is_worked_off(self, code: str) -> bool:
        here = [each for each in self.planned if each.area == code and each.stage == each.area_stage]
        return self.stages[code] != LAST[code] and all(each.is_complete for each in here)
