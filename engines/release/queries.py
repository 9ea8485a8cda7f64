"""What holds an area back or the release up, and releases for their pages."""

from django.db.models import Q, QuerySet, prefetch_related_objects

from engines.catalogue.data import ENGINE, ENGINE_STAGES
from engines.inspection.facts import inspection_of
from engines.release.blockers import Blocker, Situation
from engines.release.gates import GATES
from engines.release.models import Notice, Release, SeriousDefect
from engines.traveler.models import Operation
from engines.traveler.queries import operations_of
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import additions_of, impact, joined_to
from shopfloor.people.models import Person
from shopfloor.people.queries import of_customers_seen_by, sees_every_customer

LAST = ENGINE_STAGES[-1]


def situation_of(area: VisitArea) -> Situation:
    """A constant number of queries."""
    return situations_of(area.visit, list(area.visit.areas.all()))[0].of(area)


def situations_of(visit: Visit, areas: list[VisitArea]) -> list[Situation]:
    """One for each area, from what is gathered once."""
    operations = _operations(visit, areas)
    now, lines, added = inspection_of(visit), list(impact(visit)), list(additions_of(visit))
    return [Situation(area, operations, now, lines, areas, added) for area in areas]


def _operations(visit: Visit, areas: list[VisitArea]) -> list[Operation]:
    """All of the visit with whoever signed them, those of the given areas with the very area: it is asked where it stands."""
    by_pk = {area.pk: area for area in areas}
    found = list(operations_of(visit).select_related(None).prefetch_related("signed_by", "accepted_by"))
    for operation in found:
        if area := by_pk.get(operation.area_id):
            operation.area = area
    return found


def blockers_of(situation: Situation) -> list[Blocker]:
    """Every reason, each once, in the order of the gates."""
    return _asked(situation, situation.area.stage)


def whole_engine(visit: Visit) -> Situation:
    """The visit as its release sees it: from the area that all others become, or any where the data name none."""
    prefetch_related_objects([visit], "areas")
    situations = situations_of(visit, list(visit.areas.all()))
    return next((each for each in situations if each.area.code == ENGINE), situations[0])


def release_blockers(situation: Situation) -> list[Blocker]:
    """Every reason that the engine cannot be released, as `whole_engine` sees it."""
    area = situation.area
    if area.code != ENGINE:
        return [Blocker("The engine data have no area for the whole engine, so nothing says how it is run and released.")]
    early = f"{area.name} stands in {area.stage} and must come to {LAST} first."
    here = [] if area.stage == LAST else [Blocker(early, "area", area.pk)]
    return [*here, *_asked(situation, LAST)]


def _asked(situation: Situation, stage: str) -> list[Blocker]:
    found = (blocker for gate in GATES[stage] for blocker in gate(situation))
    return list(dict.fromkeys(found))


def visible_releases(person: Person) -> QuerySet[Release]:
    """The newest first: a customer those of own engines, the shop all."""
    joined = (*joined_to("visit"), "signed_by", "amends", "amended_by")
    own = Q() if sees_every_customer(person) else Q(visit__in=Visit.objects.filter(of_customers_seen_by(person)))
    return Release.objects.filter(own).select_related(*joined).order_by("-number")


def releases_of(visit: Visit) -> QuerySet[Release]:
    """The first and what amends it, in their order."""
    return Release.objects.filter(visit=visit).select_related("signed_by", "amended_by", "amends").order_by("number")


def visible_notices(person: Person) -> QuerySet[Notice]:
    return Notice.objects.filter(of_customers_seen_by(person)).select_related("release__visit__engine__item", "seen_by")


def serious_of(visit: Visit) -> QuerySet[SeriousDefect]:
    return _serious().filter(discrepancy__visit=visit).order_by("discrepancy__number")


def to_report() -> QuerySet[SeriousDefect]:
    """Serious defects that nobody has reported yet, the one due first first."""
    return _serious().filter(reported_at__isnull=True).order_by("due_at")


def _serious() -> QuerySet[SeriousDefect]:
    return SeriousDefect.objects.select_related("discrepancy__visit__engine__item", "marked_by", "reported_by")
