"""Which part on record it is that was found at a position: on a later visit most parts of an engine are known already."""

from collections.abc import Iterable
from uuid import UUID

from engines.catalogue.data import Line
from engines.parts.models import Fitment, Item
from engines.visits.errors import ElsewhereByRecord
from engines.visits.models import Tagged, Visit

Spot = tuple[str, str]


class OnRecord:
    """What the record has on this engine, and who carries the serials that were read: a constant number of queries."""

    def __init__(self, visit: Visit, serials: Iterable[str]) -> None:
        engine = visit.engine_id
        fitted = Fitment.objects.select_for_update(of=("self",)).filter(root=engine, removed_at__isnull=True)
        self.fitments = list(fitted.select_related("item", "root"))
        tagged = Tagged.objects.filter(visit__engine=engine, item__isnull=False, followed_by__isnull=True).exclude(visit=visit)
        before = tagged.select_related("item").order_by("-visit__number")
        self._here = [(each.line, each.place, each.item) for each in self.fitments]
        self._here += [(each.line, each.place, each.item) for each in before if each.item]
        read = {serial for serial in serials if serial}
        known = Item.objects.filter(serial__in=read, tagged__isnull=False).distinct() if read else ()
        self._by_serial = {(item.part_number, item.serial): item for item in known}

    def part(self, line: Line, place: str, part_number: str, serial: str, mark: str) -> Item | None:
        """None where it was never on an engine of ours."""
        if serial:
            return self._by_serial.get((part_number or line.part_number, serial))
        marked = [(at, item) for name, at, item in self._here if name == line.line and mark and item.mark == mark]
        return next((item for at, item in marked if at == place), marked[0][1] if marked else None)

    def taken_off(self, spots: Iterable[Spot], items: Iterable[Item]) -> list[Fitment]:
        """The spans that end with what was found: of these positions, and of these parts wherever they were on this engine."""
        places, known = set(spots), {item.pk for item in items}
        return [each for each in self.fitments if (each.line, each.place) in places or each.item_id in known]


def check_free(visit: Visit, items: Iterable[Item]) -> None:
    """A known part found here is in no other engine, and not tagged in a visit that is open. Raises ElsewhereByRecord."""
    known: dict[UUID, Item] = {}
    for item in items:
        if item.pk in known:
            raise ElsewhereByRecord(str(item), "entered at another position as well")
        known[item.pk] = item
    if not known:
        return
    fitted = Fitment.objects.filter(item__in=known, removed_at__isnull=True).exclude(root=visit.engine_id)
    if there := fitted.select_related("root").first():
        raise ElsewhereByRecord(str(known[there.item_id]), f"fitted in {there.root}")
    tagged = Tagged.objects.filter(item__in=known, followed_by__isnull=True, visit__closed_at__isnull=True)
    if held := tagged.select_related("visit", "item").first():
        raise ElsewhereByRecord(str(held.item), f"tagged at {held.place} of visit {held.visit.number}")
