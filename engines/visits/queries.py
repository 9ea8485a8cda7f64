"""What pages and the rooms above ask of visits."""

from collections.abc import Iterable
from uuid import UUID

from django.db.models import F, Prefetch, QuerySet

from engines.catalogue.data import Line
from engines.catalogue.queries import data_of
from engines.visits.errors import Closed
from engines.visits.models import AddedOperation, ImpactLine, Photo, Received, Tagged, Visit, VisitArea
from shopfloor.people.models import Person
from shopfloor.people.queries import of_customers_seen_by

JOINED = ("engine__item", "engine__model", "customer", "pack__model", "received_by")
OPEN_FIRST, EARLIEST = F("closed_at").asc(nulls_first=True), F("promised_on").asc(nulls_last=True)


def joined_to(path: str) -> list[str]:
    """What every page about an engine says of its visit, from a record that reaches the visit by `path`."""
    return [f"{path}__{name}" for name in JOINED]


def visible_visits(person: Person) -> QuerySet[Visit]:
    """Open ones first, the earliest promise first: a customer's own, the shop's all."""
    return _joined().filter(of_customers_seen_by(person)).order_by(OPEN_FIRST, EARLIEST, "number")


def with_areas(visits: QuerySet[Visit]) -> QuerySet[Visit]:
    return visits.prefetch_related(Prefetch("areas", queryset=VisitArea.objects.order_by("order")))


def locked_visit(pk: UUID) -> Visit:
    """For a write on this visit: nobody else writes there until it ends. Raises Closed."""
    visit = _joined().select_for_update(of=("self",)).get(pk=pk)
    if visit.closed_at:
        raise Closed(visit.number)
    return visit


def locked_area(pk: UUID) -> VisitArea:
    """The same for an area; its visit is locked with it, always first. Raises Closed."""
    visit = locked_visit(VisitArea.objects.values_list("visit_id", flat=True).get(pk=pk))
    area = VisitArea.objects.select_for_update().get(pk=pk)
    area.visit = visit
    return area


def received(visit: Visit) -> QuerySet[Received]:
    return Received.objects.filter(visit=visit).order_by("what", "id")


def photos(visit: Visit) -> QuerySet[Photo]:
    return Photo.objects.filter(visit=visit).select_related("file", "taken_by").order_by("-taken_at", "-id")


def impact(visit: Visit) -> QuerySet[ImpactLine]:
    return ImpactLine.objects.filter(visit=visit).select_related("pack", "settled_by").order_by("listed_at", "id")


def additions() -> QuerySet[AddedOperation]:
    """Operations that were asked for beyond the data, with all that their pages say of the engine."""
    return AddedOperation.objects.select_related(*joined_to("visit"), "asked_by", "decided_by").order_by("asked_at", "id")


def additions_of(visit: Visit) -> QuerySet[AddedOperation]:
    """All that were asked for on this visit, refused ones too."""
    return AddedOperation.objects.filter(visit=visit).select_related("asked_by", "decided_by").order_by("asked_at", "id")


def tagged_now(visit: Visit, line: str, place: str) -> Tagged | None:
    return _standing(visit).filter(line=line, place=place).first()


def tagged_by_spot(visit: Visit, lines: Iterable[str] | None = None) -> dict[tuple[str, str], Tagged]:
    """The part that is at each (line, place) now, of some lines or of all: one query."""
    standing = _standing(visit) if lines is None else _standing(visit).filter(line__in=lines)
    newest_first = sorted(standing.order_by(), key=lambda each: (each.tagged_at, each.pk), reverse=True)
    return {(tagged.line, tagged.place): tagged for tagged in newest_first}


def spots_tagged(visit: Visit) -> set[tuple[str, str]]:
    """Each (line, place) that somebody tagged, a part that was not there too."""
    return set(Tagged.objects.filter(visit=visit).values_list("line", "place"))


def tags(visit: Visit) -> QuerySet[Tagged]:
    """Every tag ever hung, replaced ones too."""
    return (
        Tagged.objects.filter(visit=visit).select_related("item", "tray", "tagged_by", "followed_by").order_by("tagged_at", "id")
    )


def lines_to_tag(visit: Visit) -> list[Line]:
    """The lines whose parts get an identity: all but what is always renewed or never told apart."""
    return [line for line in data_of(visit.pack).lines if not line.renew and line.tracking != "none"]


def _standing(visit: Visit) -> QuerySet[Tagged]:
    standing = Tagged.objects.filter(visit=visit, followed_by__isnull=True)
    return standing.select_related("item", "tray").order_by("-tagged_at", "-id")


def _joined() -> QuerySet[Visit]:
    """Without the text of the engine data, which is long and parsed once in a process."""
    return Visit.objects.select_related(*JOINED).defer("pack__content")


def areas() -> QuerySet[VisitArea]:
    """Areas with all that their pages say of the engine."""
    return VisitArea.objects.select_related(*joined_to("visit")).defer("visit__pack__content")
