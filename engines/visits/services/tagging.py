"""Parts get their identity at the position they were taken from, and lie in a tray of this engine."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db import IntegrityError, transaction

from engines.catalogue.data import Line
from engines.catalogue.queries import data_of
from engines.parts.at_hand import check_at_hand
from engines.parts.models import Item
from engines.parts.services import take_off, write_items, write_removals
from engines.visits.chains import chain_of
from engines.visits.errors import FieldRefused, NoSuchPlace, NotTagged, TaggedAlready, TrayTaken
from engines.visits.models import Tagged, Tray, Visit
from engines.visits.queries import locked_visit, spots_tagged, tagged_now
from engines.visits.services.recognising import OnRecord, check_free
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@dataclass(frozen=True)
class Identity:
    """How a part is known: a serial, or the mark that the shop put on it."""

    serial: str = ""
    mark: str = ""
    part_number: str = ""


@dataclass(frozen=True)
class Found:
    """The part at a position as it was found there; without an identity none was there."""

    line: str
    place: str
    identity: Identity | None
    tray: str
    as_found: str


def tag_part(
    *, visit: Visit, line: str, place: str, identity: Identity | None, tray: str, as_found: str, by: Person, at: datetime
) -> Tagged:
    """One part; raises what `tag_parts` raises."""
    return tag_parts(visit=visit, found=[Found(line, place, identity, tray, as_found)], by=by, at=at)[0]


@transaction.atomic
def tag_parts(*, visit: Visit, found: Sequence[Found], by: Person, at: datetime) -> list[Tagged]:
    """What was taken off together, each part at its position. A part that is known from an earlier visit stays the same item,
    and what the record has at these positions is off from now on.

    Raises NoSuchPlace, FieldRefused, TaggedAlready, ElsewhereByRecord, NotAtHand, TrayTaken.
    """
    visit = locked_visit(visit.pk)
    standing = spots_tagged(visit)
    parts = []
    for each in found:
        part = line_at(visit, each.line, each.place)
        if not each.as_found.strip():
            raise FieldRefused("Say how the part was found: its condition, or that it was not there.")
        if (each.line, each.place) in standing:
            raise TaggedAlready(part.name, each.place)
        if each.identity and not each.tray.strip():
            raise FieldRefused("Say which tray the part lies in.")
        standing.add((each.line, each.place))
        parts.append(part)
    record_now = OnRecord(visit, [each.identity.serial.strip() for each in found if each.identity])
    items = [
        _known(record_now, part, each) or _item(visit, part, each.identity, "came with the engine", by, at)
        if each.identity
        else None
        for each, part in zip(found, parts, strict=True)
    ]
    known = [item for item in items if item and not item._state.adding]
    check_free(visit, known)
    check_at_hand(*known)
    unknown = [item for item in items if item and item._state.adding]
    entries = write_items(*unknown) if unknown else []
    off = record_now.taken_off([(each.line, each.place) for each in found], known)
    entries += write_removals(*off, removed_at=at, reason="taken off at teardown", by=by, at=at) if off else []
    trays = {}
    for tag in dict.fromkeys(each.tray.strip() for each in found if each.identity):
        trays[tag], hung = _tray(visit, tag, at)
        entries += hung
    tagged = [
        _tagged(visit, part, each.place, item, trays.get(each.tray.strip()) if item else None, each.as_found, None, by, at)
        for each, part, item in zip(found, parts, items, strict=True)
    ]
    return _kept(visit, tagged, entries, by, at)


@transaction.atomic
def tag_replacement(
    *,
    visit: Visit,
    line: str,
    place: str,
    item: Item | None = None,
    identity: Identity | None = None,
    words: str,
    by: Person,
    at: datetime,
) -> Tagged:
    """Another part takes the place of the one tagged there, which is off: an item from stores, or one identified now.

    Raises NoSuchPlace, NotTagged, FieldRefused, NotAtHand.
    """
    visit = locked_visit(visit.pk)
    part = line_at(visit, line, place)
    before = tagged_now(visit, line, place)
    if before is None:
        raise NotTagged(part.name, place)
    if item is None and identity is None:
        raise FieldRefused("Say which part takes its place: its serial, or the mark you put on it.")
    if item is not None:
        check_at_hand(Item.objects.select_for_update().get(pk=item.pk))
    if item is not None and item.scrapped_at:
        raise FieldRefused(f"{item} was scrapped. A scrapped part takes no place any more: choose another.")
    if item is not None and Tagged.objects.filter(item=item).exists():
        raise FieldRefused(f"{item} was tagged at a position before. Choose a part that is free.")
    entries: list[Entry] = []
    if identity is not None and item is None:
        item = _item(visit, part, identity, "came as a replacement", by, at)
        entries = write_items(item)
    if before.item:
        reason = f"another part takes its place: {words}"
        take_off(root=visit.engine.item, lines=[line], item=before.item, reason=reason, by=by, at=at)
    return _kept(visit, [_tagged(visit, part, place, item, None, words, before, by, at)], entries, by, at)[0]


def _known(record_now: OnRecord, part: Line, found: Found) -> Item | None:
    identity = found.identity or Identity()
    return record_now.part(part, found.place, identity.part_number.strip(), identity.serial.strip(), identity.mark.strip())


def line_at(visit: Visit, line: str, place: str) -> Line:
    part = data_of(visit.pack).line_by_code.get(line)
    if part is None or place not in part.places:
        raise NoSuchPlace(part.name if part else line, place)
    return part


def _tagged(
    visit: Visit,
    part: Line,
    place: str,
    item: Item | None,
    tray: Tray | None,
    as_found: str,
    before: Tagged | None,
    by: Person,
    at: datetime,
) -> Tagged:
    return Tagged(
        visit=visit,
        area=part.area,
        line=part.line,
        place=place,
        item=item,
        tray=tray,
        as_found=as_found.strip(),
        in_place_of=before,
        tagged_by=by,
        tagged_at=at,
    )


def _kept(visit: Visit, tagged: list[Tagged], entries: list[Entry], by: Person, at: datetime) -> list[Tagged]:
    Tagged.objects.bulk_create(tagged)
    chain = chain_of(visit)
    record(*entries, *(Entry(chain=chain, kind="part.tagged", of=each) for each in tagged), by=by.pk, at=at)
    return tagged


def _item(visit: Visit, part: Line, identity: Identity, origin: str, by: Person, at: datetime) -> Item:
    serial, mark = identity.serial.strip(), identity.mark.strip()
    if part.tracking == "serial" and not serial:
        raise FieldRefused(f"{part.name} is known by its serial. Type it as it stands on the part, or mark the part and say so.")
    if not serial and not mark:
        raise FieldRefused("Type the serial, or the mark that you put on the part.")
    return Item(
        part_number=identity.part_number.strip() or part.part_number,
        name=part.name,
        serial=serial,
        mark=mark,
        tracking="serial" if serial else "mark",
        customer=visit.customer,
        origin=origin,
        known_at=at,
        added_by=by,
    )


def _tray(visit: Visit, tag: str, at: datetime) -> tuple[Tray, list[Entry]]:
    held = Tray.objects.select_related("visit").filter(tag=tag, emptied_at__isnull=True).first()
    if held is None:
        try:
            with transaction.atomic():
                made = Tray.objects.create(tag=tag, visit=visit, hung_at=at)
        except IntegrityError:
            held = Tray.objects.select_related("visit").get(tag=tag, emptied_at__isnull=True)
        else:
            return made, [Entry(chain=chain_of(visit), kind="tray.hung", of=made)]
    if held.visit_id != visit.pk:
        raise TrayTaken(tag, held.visit.number)
    return held, []
