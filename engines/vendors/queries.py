"""What pages and the rooms above ask of vendors and orders: each a constant number of queries."""

from collections.abc import Iterable
from datetime import date
from typing import NamedTuple
from uuid import UUID

from django.db.models import F, QuerySet

from engines.parts.models import Item
from engines.vendors.models import Approval, OutsideWork, Suspension, Vendor
from engines.vendors.standing import approval_on, reason_against

PEOPLE = ("ordered_by", "sent__sent_by", "back__back_by", "back__certificate", "withdrawal__withdrawn_by", "look__looked_by")
JOINED = ("vendor", "approval", "item", "root", *PEOPLE)


class Listed(NamedTuple):
    """A vendor as it stands on a day: the approval that counts, and why nothing may go there."""

    vendor: Vendor
    approval: Approval | None
    reason: str


def vendors() -> QuerySet[Vendor]:
    """By name, each with its approvals and suspensions: three queries, however many vendors."""
    return Vendor.objects.prefetch_related("approvals", "suspensions").order_by("name")


def listed(found: Iterable[Vendor], day: date) -> list[Listed]:
    """Vendors of `vendors()`; no query more."""
    return [_listed(each, day) for each in found]


def _listed(vendor: Vendor, day: date) -> Listed:
    approvals, suspensions = list(vendor.approvals.all()), list(vendor.suspensions.all())
    return Listed(vendor, approval_on(approvals, day), reason_against(vendor.name, approvals, suspensions, day))


def approvals_of(vendor: Vendor) -> QuerySet[Approval]:
    """Every one ever granted, the newest first."""
    return Approval.objects.filter(vendor=vendor).select_related("granted_by").order_by("-valid_from", "-granted_at", "-id")


def suspensions_of(vendor: Vendor) -> QuerySet[Suspension]:
    joined = ("suspended_by", "lifted_by")
    return Suspension.objects.filter(vendor=vendor).select_related(*joined).order_by("-suspended_at", "-id")


def orders() -> QuerySet[OutsideWork]:
    return OutsideWork.objects.select_related(*JOINED).order_by("-number")


def open_orders() -> QuerySet[OutsideWork]:
    """Ordered or out; the earliest due first."""
    return orders().filter(ended_at__isnull=True).order_by("due_on", "number")


def overdue_orders(day: date) -> QuerySet[OutsideWork]:
    return open_orders().filter(due_on__lt=day)


def orders_of(vendor: Vendor) -> QuerySet[OutsideWork]:
    """Open ones first, then the newest."""
    return orders().filter(vendor=vendor).order_by(F("ended_at").asc(nulls_first=True), "-number")


def orders_for(root: Item, since: object) -> QuerySet[OutsideWork]:
    """Everything ordered for an engine since a moment, in its order."""
    return orders().filter(root=root, ordered_at__gte=since).order_by("number")


def out_of(roots: Iterable[UUID]) -> QuerySet[OutsideWork]:
    """What of these engines is out now, the earliest due first: one query."""
    return open_orders().filter(root__in=list(roots), sent__isnull=False)


def orders_of_item(item: Item) -> QuerySet[OutsideWork]:
    return orders().filter(item=item)


def where_out(items: Iterable[Item]) -> str:
    """A sentence about the first of the items that is out; blank while all are here."""
    out = OutsideWork.objects.filter(item__in=list(items), ended_at__isnull=True, sent__isnull=False)
    found = out.select_related("vendor", "item").first() if out.exists() else None
    return out_words(str(found.item), found) if found else ""


def out_words(part: str, order: OutsideWork) -> str:
    return f"{part} is out with {order.vendor.name} (order {order.number}, due {order.due_on})."
