"""Parts come on record, leave a lot, and end as scrap."""

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
    item = _written(
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
    record(Entry(chain="stores", kind="item.added", of=item), by=by.pk, at=at)
    return item


@transaction.atomic
def add_engine(*, model: EngineModel, serial: str, customer: Customer, by: Person, at: datetime) -> Engine:
    """An engine and the item that it is. Raises FieldRefused, SerialTaken."""
    item = _written(
        part_number=model.code,
        name=model.name,
        serial=serial,
        tracking=Tracking.SERIAL,
        customer=customer,
        origin="came into the shop",
        known_at=at,
        added_by=by,
    )
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


def _written(**fields: object) -> Item:
    number, serial, tracking = (str(fields.get(name, "")).strip() for name in ("part_number", "serial", "tracking"))
    if not number or not str(fields["name"]).strip():
        raise FieldRefused("A part has a part number and a name: fill in both.")
    if tracking == Tracking.SERIAL and not serial:
        raise FieldRefused("A part known by its serial needs it: type it as it stands on the part.")
    if tracking in (Tracking.MARK, Tracking.LOT) and not (serial or str(fields.get("mark", "")).strip()):
        raise FieldRefused("Type the mark on the part, or the number of the lot.")
    try:
        with transaction.atomic():
            return Item.objects.create(**{**fields, "part_number": number, "serial": serial})
    except IntegrityError:
        if serial and Item.objects.filter(part_number=number, serial=serial).exists():
            raise SerialTaken(number, serial) from None
        raise FieldRefused("Only a lot holds more than one, and every item at least one: check the quantity.") from None
