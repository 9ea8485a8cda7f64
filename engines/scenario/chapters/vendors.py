"""The vendors of the shop: two that may work for it, one whose approval has lapsed, one suspended. All invented."""

from datetime import date, datetime, timedelta
from typing import NamedTuple

from django.db import transaction
from django.utils import timezone

from engines.scenario.saying import Say
from engines.vendors.models import Vendor
from engines.vendors.services import add_vendor, approve, suspend
from shopfloor.people.models import Person


class Invented(NamedTuple):
    """`days` are those from today on which its approval begins and ends."""

    name: str
    reference: str
    scope: str
    days: tuple[int, int]
    suspended: str = ""


VENDORS = [
    Invented("Creek Bend Grinding", "demo-V-01", "grinding: crankshaft, camshaft\nshot peening: connecting rod", (-200, 500)),
    Invented("Longshore Plating", "demo-V-02", "plating: cylinder barrel, crankshaft", (-120, 240)),
    Invented("Mudflat Accessories", "demo-V-03", "overhaul: magneto, starter, fuel pump", (-700, -20)),
    Invented("Sluice Lane Welding", "demo-V-04", "welding: crankcase", (-300, 300), "two cases came back without a leak test"),
]


def tell(at: datetime, say: Say) -> None:
    keeper = Person.objects.get(username="stores")
    for invented in VENDORS:
        if not Vendor.objects.filter(name=invented.name).exists():
            _tell(invented, keeper, timezone.localdate(at), at)


@transaction.atomic
def _tell(invented: Invented, keeper: Person, today: date, at: datetime) -> None:
    vendor = add_vendor(name=invented.name, address="an invented address", by=keeper, at=at)
    begins, ends = (today + timedelta(days=days) for days in invented.days)
    words = "demonstration data: an invented audit"
    approve(
        vendor=vendor,
        reference=invented.reference,
        scope=invented.scope,
        valid_from=begins,
        valid_until=ends,
        words=words,
        by=keeper,
        at=at,
    )
    if invented.suspended:
        suspend(vendor=vendor, suspended_on=today, reason=invented.suspended, by=keeper, at=at)
