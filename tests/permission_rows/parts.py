"""Who may do what with parts: the shop and its auditor see them, manager and storekeeper keep them."""

from engines.parts.services import book_evidence, scrap_item
from engines.parts.services.evidence import Upload
from shopfloor.people.models import Role
from tests.making_parts import make_item
from tests.making_people import AT, make_person
from tests.permission_rows.row import Row

KEY = {"receipt_key": "01a21364-3dc3-7376-891b-2b3866c9f427"}
MISSING = "01a21364-3dc3-7376-891b-2b3866c9f427"
ITEM = {"part_number": "T2-201", "name": "Piston", "tracking": "mark", "mark": "P-9", "quantity": "1"}
EVIDENCE = {"kind": "release certificate", "number": "C-1"}


def _keeper():
    return make_person(Role.STOREKEEPER)


def _certificate():
    keeper = _keeper()
    item = make_item(keeper)
    upload = Upload("scan.pdf", b"%PDF-1.7 a scan")
    return {"pk": item.pk, "certificate_pk": book_evidence(item=item, **EVIDENCE, upload=upload, by=keeper, at=AT).pk}


def _scrapped():
    keeper = _keeper()
    return {"pk": scrap_item(item=make_item(keeper), reason="cracked", by=keeper, at=AT).pk}


OBJECTS = {
    "item": lambda world: {"pk": make_item(_keeper()).pk},
    "scrapped item": lambda world: _scrapped(),
    "missing item": lambda world: {"pk": MISSING},
    "certificate": lambda world: _certificate(),
    "missing certificate": lambda world: {"pk": make_item(_keeper()).pk, "certificate_pk": MISSING},
}


def seeing(url, method, status, **rest):
    return Row(url, method, others=status, customer=403, no_role=403, anonymous=302, first_password=302, **rest)


def keeping(url, method, status, **rest):
    return Row(url, method, manager=status, storekeeper=status, others=403, anonymous=302, first_password=302, **rest)


ROWS = [
    seeing("parts:items", "GET", 200),
    seeing("parts:items", "POST", 405),
    seeing("parts:item", "GET", 200, of="item"),
    seeing("parts:item", "GET", 404, of="missing item"),
    seeing("parts:item", "POST", 405, of="item"),
    seeing("parts:evidence", "GET", 200, of="certificate"),
    seeing("parts:evidence", "GET", 404, of="missing certificate"),
    seeing("parts:evidence", "POST", 405, of="certificate"),
    keeping("parts:add", "GET", 200),
    keeping("parts:add", "POST", 400),
    keeping("parts:add", "POST", 422, data=KEY),
    keeping("parts:add", "POST", 302, data=KEY | ITEM),
    keeping("parts:book", "GET", 405, of="item"),
    keeping("parts:book", "POST", 422, of="item", data=KEY),
    keeping("parts:book", "POST", 302, of="item", data=KEY | EVIDENCE),
    keeping("parts:book", "POST", 404, of="missing item", data=KEY | EVIDENCE),
    keeping("parts:scrap", "GET", 405, of="item"),
    keeping("parts:scrap", "POST", 422, of="item", data=KEY),
    keeping("parts:scrap", "POST", 302, of="item", data=KEY | {"reason": "cracked"}),
    keeping("parts:scrap", "POST", 409, of="scrapped item", data=KEY | {"reason": "again"}),
]
