"""The parts traceability report: every line of the parts list at every place, with its identity, its end and its evidence."""

from collections import defaultdict
from uuid import UUID

from django.db.models import Q

from engines.catalogue.queries import data_of
from engines.inspection.ends import ends_of
from engines.inspection.facts import inspection_of
from engines.papers.gathering import describe, heading, visit_of
from engines.parts.models import Certificate, Fitment
from engines.visits.models import Tagged, Visit
from engines.visits.queries import tags
from shopfloor.documents.kinds import DocumentKind
from shopfloor.people.queries import of_customers_seen_by

Spot = tuple[str, str]


def context(subject: str) -> dict[str, object]:
    """A constant number of queries."""
    visit = visit_of(subject)
    tagged, fitted = _tagged(visit), _fitted(visit)
    evidence = _evidence(
        {each.item_id for spots in (tagged, fitted) for found in spots.values() for each in found if each.item_id}
    )
    lines = [
        {
            "end": end,
            "tags": tagged[end.line.line, end.place],
            "fitments": fitted[end.line.line, end.place],
            "evidence": _of_all(evidence, [*tagged[end.line.line, end.place], *fitted[end.line.line, end.place]]),
        }
        for end in ends_of(inspection_of(visit))
    ]
    areas = [(area, [line for line in lines if line["end"].area == area.code]) for area in data_of(visit.pack).areas]  # type: ignore[attr-defined]
    return {**heading(visit), "areas": areas}


def _tagged(visit: Visit) -> dict[Spot, list[Tagged]]:
    found: dict[Spot, list[Tagged]] = defaultdict(list)
    for each in tags(visit):
        found[each.line, each.place].append(each)
    return found


def _fitted(visit: Visit) -> dict[Spot, list[Fitment]]:
    """What was fitted into the engine since it was received."""
    found: dict[Spot, list[Fitment]] = defaultdict(list)
    since = Fitment.objects.filter(root=visit.engine_id, fitted_known_at__gte=visit.received_at)
    for each in since.select_related("item", "fitted_by", "removed_by").order_by("fitted_at", "id"):
        found[each.line, each.place].append(each)
    return found


def _evidence(items: set[UUID | None]) -> dict[UUID, list[Certificate]]:
    found: dict[UUID, list[Certificate]] = defaultdict(list)
    whose = Q(item__in=items) | Q(item__pieces__in=items)
    for each in Certificate.objects.filter(whose).select_related("item").order_by("booked_at", "id").distinct():
        found[each.item_id].append(each)
    return found


def _of_all(evidence: dict[UUID, list[Certificate]], found: list[Tagged | Fitment]) -> list[Certificate]:
    ids = [key for each in found if each.item for key in (each.item_id, each.item.lot_id) if key]
    return list(dict.fromkeys(certificate for key in ids for certificate in evidence.get(key, ())))


kind = DocumentKind(
    name="visit-parts-trace",
    title="Parts traceability report",
    template="papers/parts_trace.html",
    context=context,
    describe=describe,
    visible_to=of_customers_seen_by,
    filename=lambda subject: f"parts-{subject}.pdf",
)
