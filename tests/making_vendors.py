"""Vendors by way of the services, and a small engine whose crankshaft goes out to be ground. All invented."""

from dataclasses import replace
from datetime import date, datetime
from functools import partial
from typing import Any

from engines.catalogue.data import Operation, PackData
from engines.parts.models import Engine, Item
from engines.traveler.services import enter
from engines.vendors.models import Look, OutsideWork, Vendor
from engines.vendors.queries import orders
from engines.vendors.services import Asked, From, Papers, add_vendor, approve, place_order, receive_back, send
from engines.visits.models import Visit
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Person
from tests.making_packs import UNDER, empty_case, page, small_pack
from tests.making_people import AT
from tests.making_visits import Shop

SPOT = ("crankshaft", "engine")
TODAY, UNTIL = date(2026, 3, 2), date(2026, 12, 31)
GRIND: dict[str, Any] = {
    "work": "grinding",
    "part": "crankshaft",
    "asked": "Grind the mains to the 0.010 undersize.",
    "evidence": ["dimension sheet", "crack test after grinding"],
    "read_again": ["crank-main"],
}
PAPERS = {"dimension sheet": "DS-4", "crack test after grinding": "CT-9"}
case = partial(Operation, area="case")


def grinding_pack(details: dict[str, Any] | None = None, **changed: Any) -> PackData:
    """Journals read at inspection; the crankshaft goes out in repair. `changed` are fields of that operation."""
    pack = empty_case(
        case(
            code="read-mains",
            stage="inspection",
            kind="reading",
            title="Read journals",
            names=("crank-main",),
            source=page("4-2"),
        ),
        case(
            code="look",
            stage="repair",
            kind="visual-finding",
            title="Look the crankshaft over",
            names=("crankshaft",),
            criterion="No nick.",
            hold_point=True,
            source=page("5-1"),
        ),
        case(
            **{
                "code": "grind",
                "stage": "repair",
                "kind": "outside-work",
                "title": "Crankshaft to the grinder",
                "names": ("crankshaft",),
                "details": GRIND if details is None else details,
                "source": page("5-2"),
            }
            | changed
        ),
    )
    return replace(pack, limits=tuple(row for row in small_pack().limits if row["row"] in ("crank-main", "crank-main-oor")))


def make_vendor(by: Person, name: str = "Invented Grinding", scope: str = "Grinding: Crankshaft", **given: Any) -> Vendor:
    """Approved from January to December 2026; without `scope` not approved at all."""
    vendor = add_vendor(name=name, address="Quay 3", by=by, at=AT)
    approval = {"reference": "V-7", "valid_from": date(2026, 1, 1), "valid_until": UNTIL, "words": "audited in January"}
    if scope:
        approve(vendor=vendor, scope=scope, **approval | given, by=by, at=AT)
    return vendor


def ordered(
    vendor: Vendor, item: Item, engine: Engine, by: Person, at: datetime = AT, due_on: date = date(2026, 3, 12)
) -> OutsideWork:
    """A part that is not on the traveler of any visit, ordered to be ground."""
    words = ("grinding", "crankshaft", "grind the mains", "manual, revision 3, page 5-2")
    asked = Asked(*words, evidence=tuple(PAPERS), read_again=("crank-main",))
    origin = From(engine.item, "case", "crankshaft", "engine", "grind")
    return place_order(vendor=vendor, item=item, origin=origin, asked=asked, due_on=due_on, by=by, at=at)


def faults_told() -> list[str]:
    """What the verification of the record says of vendors and orders, or of any chain."""
    return [fault.sentence for fault in verify() if fault.chain or "vendors." in fault.sentence]


class Grinding:
    """One engine in repair whose journals were read, and a vendor that may grind crankshafts."""

    def __init__(self, data: PackData | None = None) -> None:
        self.shop = Shop(data or grinding_pack())
        self.vendor = make_vendor(self.shop.manager)
        self.visit: Visit = self.shop.receive()
        while (area := self.shop.advance(self.visit, "case")).stage != "repair":
            if area.stage == "teardown":
                self.shop.tag_all(self.visit, "crankshaft", "case-half")
            if area.stage == "inspection":
                self.read("2.1245")
                self.shop.sign(self.visit, "read-mains")

    @property
    def order(self) -> OutsideWork:
        return orders().first()

    def read(self, value: str, **given: Any) -> None:
        for place in ("main 1", "main 2"):
            self.shop.read(self.visit, "crank-main", place, value, **given)

    def read_ground(self) -> None:
        self.read("2.1145", size_class=UNDER, condition="after rework")

    def place(self, vendor: Vendor | None = None, due_on: date = date(2026, 3, 20), **given: Any) -> OutsideWork:
        answer = {"answer": str((vendor or self.vendor).pk), "due_on": due_on}
        asked = {"asked": "order the work: crankshaft, engine"}
        self.shop.enter(self.visit, "grind", **asked | answer | given)
        return self.order

    def send(self) -> OutsideWork:
        send(order=self.order, words="by the van", by=self.shop.mechanic, at=self.shop.later())
        return self.order

    def back(self, **papers: Any) -> OutsideWork:
        given = {"certificate": "C-100", "dated": TODAY, "did": "mains ground to 0.010 under", "numbers": PAPERS} | papers
        receive_back(order=self.order, papers=Papers(**given), by=self.shop.mechanic, at=self.shop.later())
        return self.order

    def back_without(self, why: str = "the papers were not in the crate") -> OutsideWork:
        receive_back(order=self.order, without=why, by=self.shop.mechanic, at=self.shop.later())
        return self.order

    def look(self, verdict: str = "as asked", words: str = "", by: Person | None = None) -> Look:
        given = {"asked": "look at what came back: crankshaft, engine", "answer": verdict, "words": words}
        operation = self.shop.operation(self.visit, "grind")
        enter(operation=operation, given=given, by=by or self.shop.inspector, at=self.shop.later())
        return self.order.look

    def went_out_and_came_back(self) -> None:
        self.place()
        self.send()
        self.back()
