"""What holds an area back."""

from engines.inspection.facts import inspection_of
from engines.release.blockers import Blocker, Situation
from engines.release.gates import GATES
from engines.traveler.queries import operations_of
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import impact


def situation_of(area: VisitArea) -> Situation:
    """A constant number of queries."""
    return situations_of(area.visit, list(area.visit.areas.all()))[0].of(area)


def situations_of(visit: Visit, areas: list[VisitArea]) -> list[Situation]:
    """One for each area, from what is gathered once."""
    operations = list(operations_of(visit).select_related(None))
    now, lines = inspection_of(visit), list(impact(visit))
    return [Situation(area, operations, now, lines, areas) for area in areas]


def blockers_of(situation: Situation) -> list[Blocker]:
    """Every reason, each once, in the order of the gates."""
    found = (blocker for gate in GATES[situation.area.stage] for blocker in gate(situation))
    return list(dict.fromkeys(found))
