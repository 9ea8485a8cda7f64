"""Who may do what with engines: a customer sees own visits and papers, the auditor all and changes nothing, the shop works."""

import io

from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from engines.inspection.services import decide, raise_discrepancy
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.visits.models import ImpactLine
from engines.visits.services import add_photo
from tests.making_people import AT, PASSWORD, make_customer
from tests.making_visits import Shop
from tests.permission_rows.row import Row

KEY = {"receipt_key": "01a21364-3dc3-7376-891b-2b3866c9f427"}
MISSING = "01a21364-3dc3-7376-891b-2b3866c9f427"
DATA = Data("T2-90 invented manual", "3", "page 4-4")
DECISION = {"kind": "rework", "document": "manual", "revision": "3", "page": "4-4", "words": "polish it", "seen": "0"}
RECEIVED = {"serial": "T2-1", "scope": "overhaul", "reasons": "time", "bench": "1", "directive_0": "open"}


def picture(colour: str = "grey") -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (8, 6), colour).save(out, "JPEG")
    return out.getvalue()


def _visit(world=None, *, own=False):
    shop = Shop()
    customer = world.reader.customer if own and world.reader.pk else None
    return shop, shop.receive(customer=customer or make_customer())


def _of_visit(world, *, own):
    return {"pk": _visit(world, own=own)[1].pk}


def _photo(world, *, own):
    shop, visit = _visit(world, own=own)
    photo = add_photo(visit=visit, area="", words="the plate", data=picture(), name="p.jpg", by=shop.mechanic, at=AT)
    return {"pk": visit.pk, "photo_pk": photo.pk}


def _area(ready=False):
    shop, visit = _visit()
    if ready:
        shop.sign(visit, "receive-case")
    return {"pk": shop.area(visit, "case").pk}


def _advanced_area():
    shop, visit = _visit()
    shop.sign(visit, "receive-case")
    shop.advance(visit, "case")
    return {"pk": shop.area(visit, "case").pk}


def _operation(code="receive-case", *, signed=False):
    shop, visit = _visit()
    if signed:
        shop.sign(visit, code)
    return {"pk": shop.operation(visit, code).pk}


def _to_tag():
    shop, visit = _visit()
    shop.sign(visit, "receive-case")
    shop.advance(visit, "case")
    return {"pk": shop.operation(visit, "tag-case").pk}


def _hold_point(*, accepted=False):
    shop, visit = _visit()
    to_inspection(shop, visit)
    shop.enter(visit, "look-crankshaft", spot=("crankshaft", "engine"), verdict="accepted", words="", across=None, down=None)
    shop.sign(visit, "look-crankshaft")
    if accepted:
        shop.accept(visit, "look-crankshaft")
    return {"pk": shop.operation(visit, "look-crankshaft").pk}


def _evidence(known=True):
    shop, visit = _visit()
    to_inspection(shop, visit)
    photo = SimpleUploadedFile("p.jpg", picture(), "image/jpeg")
    spot = ("crankshaft", "engine")
    shop.enter(visit, "look-crankshaft", spot=spot, verdict="accepted", words="", photo=photo, across=None, down=None)
    operation = shop.operation(visit, "look-crankshaft")
    return {"pk": operation.pk, "sha256": operation.entries.get().content["photo"] if known else "0" * 64}


def to_inspection(shop, visit):
    shop.sign(visit, "receive-case")
    shop.advance(visit, "case")
    shop.tag_all(visit, "crankshaft", "case-half")
    shop.sign(visit, "tag-case")
    shop.advance(visit, "case")
    shop.sign(visit, "clean-case")
    shop.advance(visit, "case")


def discrepancy_of(kind=None):
    shop, visit = _visit()
    shop.tag(visit, "piston", "cylinder 1")
    found = raise_discrepancy(
        visit=visit, area="cylinders", line="piston", place="cylinder 1", words="a crack", by=shop.mechanic, at=shop.later()
    )
    if kind is None:
        return {"pk": found.pk}
    made = decide(discrepancy=found, kind=kind, data=DATA, words="as the data say", by=shop.inspector, at=shop.later())
    return {"pk": found.pk, "disposition_pk": made.pk}


def _reading(value):
    shop, visit = _visit()
    shop.tag(visit, "piston", "cylinder 1")
    return {"pk": visit.pk, "reading_pk": shop.read(visit, "skirt-diameter", "cylinder 1", value).pk}


def _impact():
    shop, visit = _visit()
    line = ImpactLine.objects.create(visit=visit, pack=shop.pack, words="a limit changed", listed_at=AT)
    return {"pk": visit.pk, "line_pk": line.pk}


def _item():
    return {"pk": _visit()[1].engine_id}


def _request(world, *, own, shown=False):
    """Of the reader's customer, or of another one; answered by nobody."""
    shop, visit = _visit(world, own=own)
    shop.tag(visit, "piston", "cylinder 1")
    spot = {"area": "cylinders", "line": "piston", "place": "cylinder 1"}
    found = raise_discrepancy(visit=visit, **spot, words="a crack", by=shop.mechanic, at=shop.later())
    photo = add_photo(visit=visit, area="", words="the crack", data=picture(), name="p.jpg", by=shop.mechanic, at=AT)
    asked = shop.ask(found, photos=[photo.file])
    return {"pk": asked.pk} | ({"sha256": photo.file.sha256} if shown else {})


OBJECTS = {
    "own request": lambda world: _request(world, own=True),
    "another's request": lambda world: _request(world, own=False),
    "missing request": lambda world: {"pk": MISSING},
    "own request's photo": lambda world: _request(world, own=True, shown=True),
    "another's request's photo": lambda world: _request(world, own=False, shown=True),
    "photo that the request does not show": lambda world: _request(world, own=True) | {"sha256": "0" * 64},
    "own visit": lambda world: _of_visit(world, own=True),
    "another's visit": lambda world: _of_visit(world, own=False),
    "missing visit": lambda world: {"pk": MISSING},
    "own photo": lambda world: _photo(world, own=True),
    "another's photo": lambda world: _photo(world, own=False),
    "pack in force": lambda world: {"pk": Shop().pack.pk},
    "missing pack in force": lambda world: {"pk": MISSING},
    "area": lambda world: _area(),
    "ready area": lambda world: _area(ready=True),
    "advanced area": lambda world: _advanced_area(),
    "missing area": lambda world: {"pk": MISSING},
    "operation": lambda world: _operation(),
    "signed operation": lambda world: _operation(signed=True),
    "operation to tag": lambda world: _to_tag(),
    "signed hold point": lambda world: _hold_point(),
    "accepted hold point": lambda world: _hold_point(accepted=True),
    "missing operation": lambda world: {"pk": MISSING},
    "evidence": lambda world: _evidence(),
    "missing evidence": lambda world: _evidence(known=False),
    "discrepancy": lambda world: discrepancy_of(),
    "missing discrepancy": lambda world: {"pk": MISSING},
    "concession": lambda world: discrepancy_of(Kind.CONCESSION),
    "rework": lambda world: discrepancy_of(Kind.REWORK),
    "decided discrepancy": lambda world: {"pk": discrepancy_of(Kind.REWORK)["pk"]},
    "replacement": lambda world: discrepancy_of(Kind.REPLACE),
    "outside reading": lambda world: _reading("4.3500"),
    "good reading": lambda world: _reading("4.3635"),
    "impact line": lambda world: _impact(),
    "traced item": lambda world: _item(),
}


def seeing(url, method, status, **rest):
    return Row(url, method, others=status, no_role=403, anonymous=302, first_password=302, **rest)


def shop_sees(url, method, status, **rest):
    return Row(url, method, others=status, customer=403, no_role=403, anonymous=302, first_password=302, **rest)


def allowed(roles, url, method, status, **rest):
    return Row(url, method, **dict.fromkeys(roles, status), others=403, anonymous=302, first_password=302, **rest)


def receiving(url, method, status, **rest):
    return allowed(("manager", "mechanic", "inspector", "storekeeper"), url, method, status, **rest)


def working(url, method, status, **rest):
    return allowed(("mechanic", "inspector"), url, method, status, **rest)


def moving(url, method, status, **rest):
    return allowed(("manager", "mechanic", "inspector"), url, method, status, **rest)


def inspecting(url, method, status, **rest):
    return allowed(("inspector",), url, method, status, **rest)


def seconding(url, method, status, **rest):
    return allowed(("inspector", "manager"), url, method, status, **rest)


def asking(url, method, status, **rest):
    return allowed(("manager", "inspector"), url, method, status, **rest)


def answering(url, method, status, **rest):
    return allowed(("customer",), url, method, status, **rest)


def answering_api(url, method, status, **rest):
    return Row(url, method, customer=status, others=403, anonymous=401, first_password=403, **rest)


def seeing_api(url, method, status, **rest):
    return Row(url, method, others=status, no_role=403, anonymous=401, first_password=403, **rest)


APPROVED = {"said": "approved", "password": PASSWORD}
ASKED = {"kind": "rework", "words": "bore it out", "parts": "2 ring set", "hours": "6", "price": "900", "currency": "EUR"}
SIGNED = {"password": PASSWORD, "seen": "not what is shown"}
WRONG = {"password": "not it", "seen": "x"}
ROWS = [
    seeing("benches:board", "GET", 200),
    seeing("benches:board", "POST", 405),
    seeing("benches:board-lines", "GET", 200),
    seeing("benches:board-lines", "POST", 405),
    Row("benches:board-lines", "GET", fragment=True, others=200, no_role=403, anonymous=401, first_password=403),
    shop_sees("benches:search", "GET", 200),
    shop_sees("benches:search", "POST", 405),
    shop_sees("benches:trace", "GET", 200, of="traced item"),
    shop_sees("benches:trace", "GET", 404, of="missing visit"),
    shop_sees("benches:trace", "POST", 405, of="traced item"),
    # receiving
    receiving("benches:choose-model", "GET", 200),
    receiving("benches:choose-model", "POST", 405),
    receiving("benches:receive", "GET", 200, of="pack in force"),
    receiving("benches:receive", "GET", 404, of="missing pack in force"),
    receiving("benches:receive", "POST", 400, of="pack in force"),
    receiving("benches:receive", "POST", 422, of="pack in force", data=KEY | RECEIVED),
    # a visit
    seeing("benches:visit", "GET", 200, of="own visit"),
    seeing("benches:visit", "GET", 200, of="another's visit", customer=404),
    seeing("benches:visit", "GET", 404, of="missing visit"),
    seeing("benches:visit", "POST", 405, of="own visit"),
    shop_sees("benches:parts-list", "GET", 200, of="own visit"),
    shop_sees("benches:parts-list", "GET", 200, of="another's visit"),
    shop_sees("benches:parts-list", "POST", 405, of="own visit"),
    seeing("benches:make-paper", "GET", 405, of="own visit"),
    seeing("benches:make-paper", "POST", 302, of="own visit", data=KEY | {"kind": "visit-build-record"}),
    seeing("benches:make-paper", "POST", 302, of="another's visit", data=KEY | {"kind": "visit-build-record"}, customer=404),
    seeing("benches:make-paper", "POST", 302, of="own visit", data=KEY | {"kind": "visit-traveler"}, customer=404),
    seeing("benches:make-paper", "POST", 404, of="own visit", data=KEY | {"kind": "judged-sheet"}),
    seeing("benches:photo", "GET", 200, of="own photo"),
    seeing("benches:photo", "GET", 200, of="another's photo", customer=404),
    seeing("benches:photo", "POST", 405, of="own photo"),
    working("benches:photograph", "GET", 405, of="own visit"),
    working("benches:photograph", "POST", 422, of="own visit", data=KEY),
    working("benches:photograph", "POST", 404, of="missing visit", data=KEY),
    working("benches:photograph", "POST", 422, of="another's visit", data=KEY),
    inspecting("benches:settle", "GET", 405, of="impact line"),
    inspecting("benches:settle", "POST", 422, of="impact line", data=KEY),
    inspecting("benches:settle", "POST", 302, of="impact line", data=KEY | {"words": "measured again"}),
    # an area
    shop_sees("benches:area", "GET", 200, of="area"),
    shop_sees("benches:area", "GET", 404, of="missing area"),
    shop_sees("benches:area", "POST", 405, of="area"),
    moving("benches:move-on", "GET", 405, of="area"),
    moving("benches:move-on", "POST", 409, of="area", data=KEY | {"before": "receiving"}),
    moving("benches:move-on", "POST", 302, of="ready area", data=KEY | {"before": "receiving"}),
    moving("benches:move-on", "POST", 409, of="ready area", data=KEY | {"before": "teardown"}),
    moving("benches:move-back", "GET", 405, of="advanced area"),
    moving("benches:move-back", "POST", 422, of="advanced area", data=KEY | {"before": "teardown", "after": "receiving"}),
    moving(
        "benches:move-back",
        "POST",
        302,
        of="advanced area",
        data=KEY | {"before": "teardown", "after": "receiving", "reason": "a hose was forgotten"},
    ),
    moving("benches:rebench", "GET", 405, of="area"),
    moving("benches:rebench", "POST", 422, of="area", data=KEY),
    moving("benches:rebench", "POST", 302, of="area", data=KEY | {"bench": "2"}),
    working("benches:raise", "GET", 200, of="area"),
    working("benches:raise", "POST", 422, of="area", data=KEY),
    working("benches:raise", "POST", 302, of="area", data=KEY | {"spot": "", "words": "a stud is bent"}),
    # an operation
    shop_sees("benches:operation", "GET", 200, of="operation"),
    shop_sees("benches:operation", "GET", 404, of="missing operation"),
    shop_sees("benches:operation", "POST", 405, of="operation"),
    shop_sees("benches:handover", "GET", 200),
    shop_sees("benches:handover", "POST", 405),
    working("benches:enter", "GET", 405, of="operation to tag"),
    working("benches:enter", "POST", 422, of="operation to tag", data=KEY),
    working("benches:enter", "POST", 409, of="operation", data=KEY),
    working("benches:take", "GET", 404, of="operation"),
    working("benches:take", "POST", 404, of="operation", data=KEY),
    working("benches:sign", "GET", 405, of="operation"),
    working("benches:sign", "POST", 422, of="operation", data=KEY),
    working("benches:sign", "POST", 403, of="operation", data=KEY | WRONG),
    working("benches:sign", "POST", 409, of="operation", data=KEY | SIGNED),
    inspecting("benches:accept", "GET", 405, of="signed hold point"),
    inspecting("benches:accept", "POST", 403, of="signed hold point", data=KEY | WRONG),
    inspecting("benches:accept", "POST", 409, of="accepted hold point", data=KEY | SIGNED),
    inspecting("benches:open-again", "GET", 405, of="signed operation"),
    inspecting("benches:open-again", "POST", 422, of="signed operation", data=KEY),
    inspecting("benches:open-again", "POST", 302, of="signed operation", data=KEY | {"reason": "the wrong engine"}),
    shop_sees("benches:evidence", "GET", 200, of="evidence"),
    shop_sees("benches:evidence", "GET", 404, of="missing evidence"),
    shop_sees("benches:evidence", "POST", 405, of="evidence"),
    # a discrepancy
    shop_sees("benches:discrepancy", "GET", 200, of="discrepancy"),
    shop_sees("benches:discrepancy", "GET", 404, of="missing discrepancy"),
    shop_sees("benches:discrepancy", "POST", 405, of="discrepancy"),
    working("benches:raise-from", "GET", 405, of="outside reading"),
    working("benches:raise-from", "POST", 422, of="good reading", data=KEY),
    inspecting("benches:decide", "GET", 405, of="discrepancy"),
    inspecting("benches:decide", "POST", 422, of="discrepancy", data=KEY),
    inspecting("benches:decide", "POST", 302, of="discrepancy", data=KEY | DECISION),
    inspecting("benches:decide", "POST", 409, of="decided discrepancy", data=KEY | DECISION),
    seconding("benches:second", "GET", 405, of="concession"),
    seconding("benches:second", "POST", 422, of="concession", data=KEY),
    seconding("benches:second", "POST", 403, of="concession", data=KEY | {"password": "not it"}),
    seconding("benches:second", "POST", 302, of="concession", data=KEY | {"password": PASSWORD}),
    seconding("benches:second", "POST", 409, of="rework", data=KEY | {"password": PASSWORD}),
    working("benches:done", "GET", 405, of="rework"),
    working("benches:done", "POST", 422, of="rework", data=KEY),
    working("benches:done", "POST", 302, of="rework", data=KEY | {"words": "polished"}),
    working("benches:done", "POST", 409, of="replacement", data=KEY | {"words": "fitted"}),
    working("benches:replace", "GET", 405, of="replacement"),
    working("benches:replace", "POST", 422, of="replacement", data=KEY),
    working("benches:replace", "POST", 302, of="replacement", data=KEY | {"mark": "N-1", "words": "from stores, C-1"}),
    # a request to the customer
    asking("benches:ask", "GET", 405, of="discrepancy"),
    asking("benches:ask", "POST", 422, of="discrepancy", data=KEY),
    asking("benches:ask", "POST", 302, of="discrepancy", data=KEY | ASKED),
    asking("benches:ask", "POST", 404, of="missing discrepancy", data=KEY | ASKED),
    seeing("benches:request", "GET", 200, of="own request"),
    seeing("benches:request", "GET", 200, of="another's request", customer=404),
    seeing("benches:request", "GET", 404, of="missing request"),
    seeing("benches:request", "POST", 405, of="own request"),
    seeing("benches:request-photo", "GET", 200, of="own request's photo"),
    seeing("benches:request-photo", "GET", 200, of="another's request's photo", customer=404),
    seeing("benches:request-photo", "GET", 404, of="photo that the request does not show"),
    seeing("benches:request-photo", "POST", 405, of="own request's photo"),
    answering("benches:answer", "GET", 405, of="own request"),
    answering("benches:answer", "POST", 422, of="own request", data=KEY),
    answering("benches:answer", "POST", 422, of="own request", data=KEY | APPROVED | {"said": "waive"}),
    answering("benches:answer", "POST", 403, of="own request", data=KEY | APPROVED | {"password": "not it"}),
    answering("benches:answer", "POST", 302, of="own request", data=KEY | APPROVED),
    answering("benches:answer", "POST", 404, of="another's request", data=KEY | APPROVED),
    asking("benches:withdraw", "GET", 405, of="another's request"),
    asking("benches:withdraw", "POST", 422, of="another's request", data=KEY),
    asking("benches:withdraw", "POST", 302, of="another's request", data=KEY | {"words": "the price was wrong"}),
    asking("benches:withdraw", "POST", 302, of="own request", data=KEY | {"words": "the price was wrong"}),
    asking("benches:withdraw", "POST", 404, of="missing request", data=KEY | {"words": "the price was wrong"}),
    seeing_api("benches-api:requests", "GET", 200),
    seeing_api("benches-api:requests", "POST", 405),
    seeing_api("benches-api:request", "GET", 200, of="own request"),
    seeing_api("benches-api:request", "GET", 200, of="another's request", customer=404),
    seeing_api("benches-api:request", "POST", 405, of="own request"),
    answering_api("benches-api:answer", "GET", 405, of="own request"),
    answering_api("benches-api:answer", "POST", 400, of="own request"),
    answering_api("benches-api:answer", "POST", 201, of="own request", data=APPROVED),
    answering_api("benches-api:answer", "POST", 403, of="own request", data=APPROVED | {"password": "not it"}),
    answering_api("benches-api:answer", "POST", 404, of="another's request", data=APPROVED),
]
