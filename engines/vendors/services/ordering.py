"""Work is ordered of a vendor, and the part is sent; or the order is withdrawn before that."""

from dataclasses import dataclass
from datetime import date, datetime
from uuid import UUID

from django.db import IntegrityError, transaction
from django.db.models import Max
from django.utils import timezone

from engines.parts.errors import Scrapped
from engines.parts.models import Fitment, Item, Tracking
from engines.vendors.errors import Ended, FieldRefused, OrderedAlready, SentAlready, StillFitted
from engines.vendors.models import Approval, OutsideWork, Sent, Suspension, Vendor, Withdrawal
from engines.vendors.queries import orders
from engines.vendors.services.chains import entries_of
from engines.vendors.standing import check_may_do
from shopfloor.ledger.services import record
from shopfloor.people.models import Person


@dataclass(frozen=True)
class Asked:
    """What the data ask: a kind of work on a sort of part, in words and from their page; what comes back, what is read again."""

    work: str
    part: str
    words: str
    source: str
    evidence: tuple[str, ...]
    read_again: tuple[str, ...]


@dataclass(frozen=True)
class From:
    """Where the part belongs: engine, area, position, and the operation that sends it."""

    root: Item
    area: str
    line: str
    place: str
    operation: str


@transaction.atomic
def place_order(*, vendor: Vendor, item: Item, origin: From, asked: Asked, due_on: date, by: Person, at: datetime) -> OutsideWork:
    """Of two at once for the same item the first wins: its row is locked, and the database refuses a second open order.

    Raises NotApproved, FieldRefused, Scrapped, StillFitted, OrderedAlready.
    """
    item = Item.objects.select_for_update().get(pk=item.pk)
    today = timezone.localdate(at)
    _check_item(item)
    if known := orders().filter(item=item, ended_at__isnull=True).first():
        raise OrderedAlready(str(item), known.number, known.vendor.name)
    approval = approval_for(vendor, asked.work, asked.part, today)
    if due_on < today:
        raise FieldRefused(f"{due_on} has passed. Ask the vendor for a day from today on.")
    order = _kept(
        vendor=vendor,
        approval=approval,
        item=item,
        root=origin.root,
        area=origin.area,
        line=origin.line,
        place=origin.place,
        operation=origin.operation,
        work=asked.work,
        part=asked.part,
        asked=asked.words,
        source=asked.source,
        evidence=list(asked.evidence),
        read_again=list(asked.read_again),
        due_on=due_on,
        ordered_by=by,
        ordered_at=at,
    )
    record(*entries_of(order, ("outside-work.ordered", order)), by=by.pk, at=at)
    return order


@transaction.atomic
def send(*, order: OutsideWork, words: str, by: Person, at: datetime) -> Sent:
    """The part leaves; the vendor must still be approved. Raises Ended, SentAlready, NotApproved, FieldRefused, StillFitted."""
    order, item = locked(order.pk)
    _check_not_sent(order)
    _check_item(item)
    approval_for(order.vendor, order.work, order.part, timezone.localdate(at))
    if not words.strip():
        raise FieldRefused("Say how it goes: the carrier and the number of the consignment, or who brings it.")
    sent = Sent.objects.create(order=order, words=words.strip()[:400], sent_by=by, sent_at=at)
    record(*entries_of(order, ("outside-work.sent", sent)), by=by.pk, at=at)
    return sent


@transaction.atomic
def withdraw(*, order: OutsideWork, words: str, by: Person, at: datetime) -> Withdrawal:
    """As long as nothing was sent. Raises Ended, SentAlready, FieldRefused."""
    order, _ = locked(order.pk)
    _check_not_sent(order)
    if not words.strip():
        raise FieldRefused("Say why it is withdrawn.")
    taken_back = Withdrawal.objects.create(order=order, words=words.strip()[:400], withdrawn_by=by, withdrawn_at=at)
    end(order, at)
    record(*entries_of(order, ("outside-work.withdrawn", taken_back), ("outside-work.ended", order)), by=by.pk, at=at)
    return taken_back


def approval_for(vendor: Vendor, work: str, part: str, day: date) -> Approval:
    """What the vendor's work rests on, on a day. Raises NotApproved."""
    approvals = list(Approval.objects.filter(vendor=vendor))
    suspensions = Suspension.objects.filter(vendor=vendor)
    return check_may_do(vendor.name, approvals, suspensions, day, work, part)


def locked(pk: UUID) -> tuple[OutsideWork, Item]:
    """The order with its item, whose row is locked first, as whoever fits it locks it."""
    item = Item.objects.select_for_update(of=("self",)).get(outside_work=pk)
    OutsideWork.objects.select_for_update().get(pk=pk)
    return orders().get(pk=pk), item


def end(order: OutsideWork, at: datetime) -> None:
    order.ended_at = at
    order.save(update_fields=["ended_at"])


def _check_item(item: Item) -> None:
    if item.tracking == Tracking.LOT:
        raise FieldRefused(f"{item} is a lot. Take a piece of it and order the work on that.")
    if item.scrapped_at:
        raise Scrapped(str(item))
    if Fitment.objects.filter(item=item, removed_at__isnull=True).exists():
        raise StillFitted(str(item))


def _check_not_sent(order: OutsideWork) -> None:
    if order.ended_at:
        raise Ended(order.number)
    if hasattr(order, "sent"):
        raise SentAlready(order.number)


def _kept(**given: object) -> OutsideWork:
    number = (OutsideWork.objects.aggregate(last=Max("number"))["last"] or 0) + 1
    try:
        with transaction.atomic():
            return OutsideWork.objects.create(number=number, **given)
    except IntegrityError:
        raise FieldRefused("Another order was written at the same moment. Press the button again.") from None
