"""Where a part is and was, and what an engine holds: each a constant number of queries."""

from collections.abc import Iterable
from datetime import datetime
from uuid import UUID

from django.db.models import Q, QuerySet

from engines.parts.models import Certificate, Engine, Fitment, Item


def items(text: str = "") -> QuerySet[Item]:
    """The newest first; with `text`, those whose number, serial, mark or name begins with it."""
    found = Item.objects.select_related("customer", "lot").order_by("-id")
    if not text:
        return found
    wanted = (
        Q(part_number__istartswith=text) | Q(serial__istartswith=text) | Q(mark__istartswith=text) | Q(name__istartswith=text)
    )
    return found.filter(wanted)


def fitted(root: Item, *, so_at: datetime, known_at: datetime) -> QuerySet[Fitment]:
    """What was at the places of `root` at one moment, as we knew it at another."""
    known = Fitment.objects.filter(root=root, fitted_at__lte=so_at, fitted_known_at__lte=known_at)
    there = Q(removed_at__isnull=True) | Q(removed_at__gt=so_at) | Q(removed_known_at__gt=known_at)
    return known.filter(there).select_related("item").order_by("line", "place", "id")


def fitted_now(root: Item) -> dict[tuple[str, str], Fitment]:
    """The open fitments by line and place; where a place holds several, the last one."""
    found = Fitment.objects.filter(root=root, removed_at__isnull=True).select_related("item").order_by("fitted_at", "id")
    return {(fitment.line, fitment.place): fitment for fitment in found}


def history(item: Item) -> QuerySet[Fitment]:
    """Every place of an item, the newest first."""
    joined = ("root__engine__model", "fitted_by", "removed_by")
    return Fitment.objects.filter(item=item).select_related(*joined).order_by("-fitted_at", "-id")


def certificates(item: Item) -> QuerySet[Certificate]:
    """Of the item, and of the lot that it came from."""
    whose = Q(item=item) | Q(item=item.lot_id) if item.lot_id else Q(item=item)
    return Certificate.objects.filter(whose).select_related("file", "booked_by").order_by("-booked_at", "-id")


def with_evidence(items: Iterable[Item]) -> set[Item]:
    """Those for which evidence of eligibility is booked, of themselves or of the lot that they came from: one query."""
    every = list(items)
    sources = {pk for item in every for pk in (item.pk, item.lot_id) if pk}
    booked = set(Certificate.objects.filter(item__in=sources).values_list("item_id", flat=True)) if sources else set()
    return {item for item in every if {item.pk, item.lot_id} & booked}


def remaining(lot: Item) -> int:
    """How many pieces are left of a lot."""
    return lot.quantity - Item.objects.filter(lot=lot).count()


def engine_chain(pk: UUID) -> str:
    """The chain of one engine, by the key of its item."""
    return f"engine:{pk}"


def chain_of(item: Item) -> str:
    """The chain of the ledger that an item belongs to: an engine has its own, every other part is on `stores`."""
    return engine_chain(item.pk) if Engine.objects.filter(pk=item.pk).exists() else "stores"
