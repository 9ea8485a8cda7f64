"""An item goes to a place, and leaves it."""

from collections.abc import Iterable
from datetime import datetime

from django.db import IntegrityError, transaction
from django.db.models import Q

from engines.parts.at_hand import check_at_hand
from engines.parts.errors import AlreadyFitted, FieldRefused, NotFitted, Scrapped
from engines.parts.models import Fitment, Item, Tracking
from engines.parts.queries import chain_of
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@transaction.atomic
def fit_item(*, item: Item, root: Item, line: str, place: str, fitted_at: datetime, by: Person, at: datetime) -> Fitment:
    """`fitted_at` is when it was so, `at` when we know. Raises FieldRefused, Scrapped, NotAtHand, AlreadyFitted.

    The item's row is locked, so of many that fit it at once the first wins; the database refuses a second place as well.
    """
    item = Item.objects.select_for_update().get(pk=item.pk)
    if item.tracking == Tracking.LOT:
        raise FieldRefused(f"{item} is a lot. Take a piece of it and fit that.")
    if item.scrapped_at:
        raise Scrapped(str(item))
    check_at_hand(item)
    if fitted_at > at:
        raise FieldRefused("It cannot have been fitted later than now: check the day and the time.")
    try:
        with transaction.atomic():
            fitment = Fitment.objects.create(
                item=item, root=root, line=line, place=place, fitted_at=fitted_at, fitted_known_at=at, fitted_by=by
            )
    except IntegrityError:
        raise AlreadyFitted(str(item)) from None
    record(*_entries("item.fitted", [fitment]), by=by.pk, at=at)
    return fitment


@transaction.atomic
def remove_item(*, fitment: Fitment, removed_at: datetime, reason: str, by: Person, at: datetime) -> Fitment:
    """Close the span, once. Raises FieldRefused, NotFitted."""
    fitment = Fitment.objects.select_for_update().get(pk=fitment.pk)
    if fitment.removed_at:
        raise NotFitted(str(fitment.item))
    if not reason.strip():
        raise FieldRefused("Say why it was removed.")
    if not fitment.fitted_at < removed_at <= at:
        raise FieldRefused("It was removed after it was fitted, and not later than now: check the day and the time.")
    record(*write_removals(fitment, removed_at=removed_at, reason=reason, by=by, at=at), by=by.pk, at=at)
    return fitment


def write_removals(*fitments: Fitment, removed_at: datetime, reason: str, by: Person, at: datetime) -> list[Entry]:
    """Close open spans within the caller's transaction; it records the entries with its own."""
    closed = {"removed_at": removed_at, "removed_known_at": at, "removed_by": by, "removed_reason": reason.strip()[:400]}
    Fitment.objects.filter(pk__in=[each.pk for each in fitments]).update(**closed)
    for fitment in fitments:
        for name, value in closed.items():
            setattr(fitment, name, value)
    return _entries("item.removed", fitments)


@transaction.atomic
def take_off(
    *, root: Item, lines: Iterable[str], item: Item | None = None, reason: str, by: Person, at: datetime
) -> list[Fitment]:
    """What the record still has at the places of these lines is off: one item, or whatever is there."""
    whose = Q(line__in=lines) & (Q(item=item) if item else Q())
    there = Fitment.objects.select_for_update(of=("self",)).filter(whose, root=root, removed_at__isnull=True)
    found = list(there.select_related("item", "root"))
    if found:
        record(*write_removals(*found, removed_at=at, reason=reason, by=by, at=at), by=by.pk, at=at)
    return found


@transaction.atomic
def put_in_place(
    *, item: Item, root: Item, line: str, place: str, loose: Iterable[str] = (), reason: str, by: Person, at: datetime
) -> Fitment:
    """Fit an item where another may be on record: that span ends with `reason`, as does its own at one of the `loose` places.

    Raises what `fit_item` and `remove_item` raise.
    """
    here = Q(line=line, place=place) | Q(item=item, line=line, place__in=loose)
    for before in Fitment.objects.filter(here, root=root, removed_at__isnull=True):
        remove_item(fitment=before, removed_at=at, reason=reason, by=by, at=at)
    return fit_item(item=item, root=root, line=line, place=place, fitted_at=at, by=by, at=at)


def _entries(kind: str, fitments: Iterable[Fitment]) -> list[Entry]:
    """On the chain of the root, and on that of the item where it has another."""
    fitments = list(fitments)
    chains = {root.pk: chain_of(root) for root in {each.root_id: each.root for each in fitments}.values()}
    return [
        Entry(chain=chain, kind=kind, of=each) for each in fitments for chain in dict.fromkeys((chains[each.root_id], "stores"))
    ]
