"""Everything on record about one item, from every room: a constant number of queries."""

from dataclasses import dataclass

from django.db.models import Q, QuerySet

from engines.inspection.models import Discrepancy, Taken
from engines.inspection.queries import discrepancies
from engines.parts.models import Certificate, Fitment, Item
from engines.parts.queries import certificates, history
from engines.vendors.models import OutsideWork
from engines.vendors.queries import orders_of_item
from engines.visits.models import Tagged
from measurements.readings.shown import Shown, figures
from shopfloor.ledger.kinds import sentence_of
from shopfloor.ledger.models import LedgerEvent

MOST = 500


@dataclass(frozen=True)
class Life:
    pieces: QuerySet[Item]
    fitments: QuerySet[Fitment]
    tags: QuerySet[Tagged]
    readings: list[tuple[Taken, Shown]]
    discrepancies: QuerySet[Discrepancy]
    certificates: QuerySet[Certificate]
    outside: QuerySet[OutsideWork]
    events: list[tuple[LedgerEvent, str]]


def life_of(item: Item) -> Life:
    """The newest first; of readings and events the newest few hundred."""
    joined = ("reading__row", "reading__taken_by", "reading__gauge", "reading__corrected_by", "visit__engine__item")
    taken = Taken.objects.filter(item=item).select_related(*joined).order_by("-taken_at", "-reading_id")[:MOST]
    tags = Tagged.objects.filter(item=item).select_related("visit__engine__item", "tray", "tagged_by", "in_place_of__item")
    about = Q(about_label="parts.item", about_id=str(item.pk))
    events = LedgerEvent.objects.filter(about).order_by("-id")[:MOST]
    return Life(
        pieces=item.pieces.order_by("id"),
        fitments=history(item),
        tags=tags.order_by("-tagged_at", "-id"),
        readings=[(each, figures(each.reading)) for each in taken],
        discrepancies=discrepancies().filter(item=item).prefetch_related("dispositions__made_by").order_by("-raised_at"),
        certificates=certificates(item),
        outside=orders_of_item(item),
        events=[(event, sentence_of(event)) for event in events],
    )
