"""Who may do what with vendors: the shop and its auditor see them, manager and storekeeper approve, the shop sends."""

from engines.vendors.services import suspend
from shopfloor.people.models import Role
from tests.making_people import AT, make_person
from tests.making_vendors import TODAY, Grinding, make_vendor
from tests.permission_rows.row import Row

KEY = {"receipt_key": "01a21364-3dc3-7376-891b-2b3866c9f427"}
MISSING = "01a21364-3dc3-7376-891b-2b3866c9f427"
VENDOR = {"name": "Invented Plating", "address": "Quay 4"}
APPROVAL = {
    "reference": "P-1",
    "scope": "plating: barrel",
    "valid_from": "2026-01-01",
    "valid_until": "2026-12-31",
    "words": "seen",
}
HELD = {"suspended_on": "2026-03-01", "reason": "late papers"}


def _suspended():
    keeper = make_person(Role.STOREKEEPER)
    vendor = make_vendor(keeper)
    suspend(vendor=vendor, suspended_on=TODAY, reason="late", by=keeper, at=AT)
    return {"pk": vendor.pk}


def _order(sent=False):
    errand = Grinding()
    errand.place()
    if sent:
        errand.send()
    return {"pk": errand.order.pk}


OBJECTS = {
    "vendor": lambda world: {"pk": make_vendor(make_person(Role.STOREKEEPER)).pk},
    "suspended vendor": lambda world: _suspended(),
    "missing vendor": lambda world: {"pk": MISSING},
    "order": lambda world: _order(),
    "order that was sent": lambda world: _order(sent=True),
    "missing order": lambda world: {"pk": MISSING},
}


def seeing(url, method, status, **rest):
    return Row(url, method, others=status, customer=403, no_role=403, anonymous=302, first_password=302, **rest)


def keeping(url, method, status, **rest):
    return Row(url, method, manager=status, storekeeper=status, others=403, anonymous=302, first_password=302, **rest)


def sending(url, method, status, **rest):
    shop = dict.fromkeys(("manager", "mechanic", "inspector", "storekeeper"), status)
    return Row(url, method, **shop, others=403, anonymous=302, first_password=302, **rest)


ROWS = [
    seeing("vendors:vendors", "GET", 200),
    seeing("vendors:vendors", "POST", 405),
    seeing("vendors:vendor", "GET", 200, of="vendor"),
    seeing("vendors:vendor", "GET", 404, of="missing vendor"),
    seeing("vendors:vendor", "POST", 405, of="vendor"),
    keeping("vendors:add", "GET", 200),
    keeping("vendors:add", "POST", 400),
    keeping("vendors:add", "POST", 422, data=KEY),
    keeping("vendors:add", "POST", 302, data=KEY | VENDOR),
    keeping("vendors:approve", "GET", 405, of="vendor"),
    keeping("vendors:approve", "POST", 422, of="vendor", data=KEY),
    keeping("vendors:approve", "POST", 302, of="vendor", data=KEY | APPROVAL),
    keeping("vendors:approve", "POST", 404, of="missing vendor", data=KEY | APPROVAL),
    keeping("vendors:suspend", "GET", 405, of="vendor"),
    keeping("vendors:suspend", "POST", 302, of="vendor", data=KEY | HELD),
    keeping("vendors:suspend", "POST", 409, of="suspended vendor", data=KEY | HELD),
    keeping("vendors:lift", "GET", 405, of="suspended vendor"),
    keeping("vendors:lift", "POST", 302, of="suspended vendor", data=KEY | {"words": "audited"}),
    keeping("vendors:lift", "POST", 409, of="vendor", data=KEY | {"words": "audited"}),
    seeing("vendors:orders", "GET", 200),
    seeing("vendors:orders", "POST", 405),
    seeing("vendors:order", "GET", 200, of="order"),
    seeing("vendors:order", "GET", 404, of="missing order"),
    seeing("vendors:order", "POST", 405, of="order"),
    sending("vendors:send", "GET", 405, of="order"),
    sending("vendors:send", "POST", 422, of="order", data=KEY),
    sending("vendors:send", "POST", 409, of="order that was sent", data=KEY | {"words": "by the van"}),
    sending("vendors:withdraw", "GET", 405, of="order"),
    sending("vendors:withdraw", "POST", 302, of="order", data=KEY | {"words": "not needed"}),
    sending("vendors:withdraw", "POST", 409, of="order that was sent", data=KEY | {"words": "not needed"}),
    sending("vendors:back", "GET", 405, of="order that was sent"),
    sending("vendors:back", "POST", 422, of="order that was sent", data=KEY),
    sending("vendors:back", "POST", 404, of="missing order", data=KEY),
    sending("vendors:without", "GET", 405, of="order that was sent"),
    sending("vendors:without", "POST", 302, of="order that was sent", data=KEY | {"without": "lost"}),
    sending("vendors:without", "POST", 409, of="order", data=KEY | {"without": "lost"}),
]
