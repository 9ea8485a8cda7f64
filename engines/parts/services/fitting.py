"""An item goes to a place, and leaves it."""

from datetime import datetime

from django.db import IntegrityError, transaction

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
    _record("item.fitted", fitment, by, at)
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
    fitment.removed_at, fitment.removed_known_at, fitment.removed_by = removed_at, at, by
    fitment.removed_reason = reason.strip()[:400]
    fitment.save(update_fields=["removed_at", "removed_known_at", "removed_by", "removed_reason"])
    _record("item.removed", fitment, by, at)
    return fitment


def _record(kind: str, fitment: Fitment, by: Person, at: datetime) -> None:
    """On the chain of the root, and on that of the item where it has another."""
    chains = dict.fromkeys((chain_of(fitment.root), "stores"))
    record(*(Entry(chain=chain, kind=kind, of=fitment) for chain in chains), by=by.pk, at=at)
