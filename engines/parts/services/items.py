"""Parts come on record, leave a lot, and end as scrap."""

from collections.abc import Sequence
from datetime import datetime

from django.db import IntegrityError, transaction

from engines.catalogue.models import EngineModel
from engines.parts.errors import FieldRefused, LotIsEmpty, Scrapped, SerialTaken, StillFitted
from engines.parts.models import Engine, Item, Tracking
from engines.parts.queries import chain_of, engine_chain, remaining
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Customer, Person


@transaction.atomic
def add_item(
    *,
    part_number: str,
    name: str,
    serial: str = "",
    mark: str = "",
    tracking: str,
    quantity: int = 1,
    customer: Customer | None = None,
    origin: str,
    by: Person,
    at: datetime,
) -> Item:
    """Raises FieldRefused, SerialTaken."""
    item = Item(
        part_number=part_number,
        name=name,
        serial=serial,
        mark=mark,
        tracking=tracking,
        quantity=quantity,
        customer=customer,
        origin=origin,
        known_at=at,
        added_by=by,
    )
    record(*write_items(item), by=by.pk, at=at)
    return item


def write_items(*items: Item) -> list[Entry]:
    """Keep new items within the caller's transaction; it records the entries with its own. Raises FieldRefused, SerialTaken."""
    _keep(items)
    return [Entry(chain="stores", kind="item.added", of=item) for item in items]


@transaction.atomic
def add_engine(*, model: EngineModel, serial: str, customer: Customer, by: Person, at: datetime) -> Engine:
    """An engine and the item that it is. Raises FieldRefused, SerialTaken."""
    item = Item(
        part_number=model.code,
        name=model.name,
        serial=serial,
        tracking=Tracking.SERIAL,
        customer=customer,
        origin="came into the shop",
        known_at=at,
        added_by=by,
    )
    _keep([item])
    engine = Engine.objects.create(item=item, model=model, customer=customer)
    chain = engine_chain(item.pk)
    record(Entry(chain=chain, kind="item.added", of=item), Entry(chain=chain, kind="engine.added", of=engine), by=by.pk, at=at)
    return engine


@transaction.atomic
def take_piece(*, lot: Item, mark: str = "", by: Person, at: datetime) -> Item:
    """A piece of a lot becomes an item of its own. Raises LotIsEmpty, Scrapped, FieldRefused."""
    lot = Item.objects.select_for_update().get(pk=lot.pk)
    if lot.tracking != Tracking.LOT:
        raise FieldRefused(f"{lot} is no lot: it is fitted as it is.")
    if lot.scrapped_at:
        raise Scrapped(str(lot))
    if remaining(lot) < 1:
        raise LotIsEmpty(str(lot))
    piece = Item.objects.create(
        part_number=lot.part_number,
        name=lot.name,
        mark=mark or lot.identity,
        tracking=Tracking.PIECE,
        lot=lot,
        customer=lot.customer,
        origin=lot.origin,
        known_at=at,
        added_by=by,
    )
    record(Entry(chain="stores", kind="item.added", of=piece), by=by.pk, at=at)
    return piece


@transaction.atomic
def scrap_item(*, item: Item, reason: str, by: Person, at: datetime) -> Item:
    """Raises FieldRefused, Scrapped, StillFitted."""
    item = Item.objects.select_for_update().get(pk=item.pk)
    if not reason.strip():
        raise FieldRefused("Say why it is scrapped.")
    if item.scrapped_at:
        raise Scrapped(str(item))
    if item.fitments.filter(removed_at__isnull=True).exists():
        raise StillFitted(str(item))
    item.scrapped_at, item.scrapped_by, item.scrapped_reason = at, by, reason.strip()
    item.save(update_fields=["scrapped_at", "scrapped_by", "scrapped_reason"])
    record(Entry(chain=chain_of(item), kind="item.scrapped", of=item), by=by.pk, at=at)
    return item


def _keep(items: Sequence[Item]) -> None:
    for item in items:
        _check(item)
    try:
        with transaction.atomic():
            Item.objects.bulk_create(items)
    except IntegrityError:
        if taken := _taken(items):
            raise SerialTaken(taken.part_number, taken.serial) from None
        raise FieldRefused("Only a lot holds more than one, and every item at least one: check the quantity.") from None


def _check(item: Item) -> None:
    item.part_number, item.serial = item.part_number.strip(), item.serial.strip()
    if not item.part_number or not item.name.strip():
        raise FieldRefused("A part has a part number and a name: fill in both.")
    if item.tracking == Tracking.SERIAL and not item.serial:
        raise FieldRefused("A part known by its serial needs it: type it as it stands on the part.")
    if item.tracking in (Tracking.MARK, Tracking.LOT) and not (item.serial or item.mark.strip()):
        raise FieldRefused("Type the mark on the part, or the number of the lot.")


def _taken(items: Sequence[Item]) -> Item | None:
    """The first whose number and serial are on record, or given to one before it."""
    before: set[tuple[str, str]] = set()
    for item in (each for each in items if each.serial):
        key = item.part_number, item.serial
        if key in before or Item.objects.filter(part_number=item.part_number, serial=item.serial).exists():
            return item
        before.add(key)
    return None
