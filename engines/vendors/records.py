"""What the ledger keeps of vendors and of work that is out; names and free texts stand apart."""

from django.urls import reverse

from engines.vendors.models import Approval, Back, Look, OutsideWork, Sent, Suspension, Vendor, Withdrawal
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.plain import fields, worded
from shopfloor.ledger.records import register_record

ASKED = ("operation", "work", "part", "asked", "source", "evidence", "read_again", "due_on")
ORDER = ("number", "vendor", "approval", "item", "root", "area", "line", "place", *ASKED, "ordered_by", "ordered_at", "ended_at")
LIFTED = ("lifted_on", "lifted_words", "lifted_by", "lifted_at")
OF_VENDORS = {
    "vendor.approved": "A vendor was approved as {reference}, until {valid_until}.",
    "vendor.suspended": "A vendor was suspended from {suspended_on} on.",
    "vendor.restored": "The suspension of a vendor was lifted on {lifted_on}.",
}
OF_ORDERS = {
    "outside-work.sent": "A part was sent to a vendor.",
    "outside-work.back": "A part came back from a vendor.",
    "outside-work.withdrawn": "An order to a vendor was withdrawn before anything was sent.",
    "outside-work.looked-at": "What came back from a vendor was looked at: {verdict}.",
}


def register() -> None:
    register_record(Vendor, content=fields("added_by", "added_at"), private=("name", "address"))
    approved = fields("vendor", "reference", "scope", "valid_from", "valid_until", "granted_by", "granted_at")
    register_record(Approval, content=approved, private=("words",))
    suspended = fields("vendor", "suspended_on", "suspended_by", "suspended_at", "lifted_on", "lifted_by", "lifted_at")
    register_record(Suspension, content=suspended, private=("reason", "lifted_words"))
    register_record(OutsideWork, content=fields(*ORDER))
    register_record(Sent, content=fields("order", "sent_by", "sent_at"), private=("words",))
    back = fields("order", "certificate", "papers", "back_by", "back_at")
    register_record(Back, content=back, private=("did", "without"))
    register_record(Withdrawal, content=fields("order", "withdrawn_by", "withdrawn_at"), private=("words",))
    register_record(Look, content=fields("order", "verdict", "looked_by", "looked_at"), private=("words",))
    for model in (Vendor, Approval, Sent, Back, Withdrawal, Look):
        protect(model)
    protect(Suspension, closes=LIFTED)
    protect(OutsideWork, closes=("ended_at",))
    _register_kinds()


def _register_kinds() -> None:
    register_kind("vendor.added", sentence=lambda event: "A vendor was put into the register.", link=_to_vendor)
    for kind, words in OF_VENDORS.items():
        register_kind(kind, sentence=worded(words), link=_to_its_vendor)
    ordered = "Order {number}: {work} of {line} at {place}, due on {due_on}."
    register_kind("outside-work.ordered", sentence=worded(ordered), link=_to_order)
    register_kind("outside-work.ended", sentence=worded("Order {number} to a vendor has ended."), link=_to_order)
    for kind, words in OF_ORDERS.items():
        register_kind(kind, sentence=worded(words), link=_to_its_order)


def _to_vendor(event: LedgerEvent) -> str:
    return reverse("vendors:vendor", args=[event.body["about"][1]])


def _to_its_vendor(event: LedgerEvent) -> str:
    return reverse("vendors:vendor", args=[event.body["content"]["vendor"]])


def _to_order(event: LedgerEvent) -> str:
    return reverse("vendors:order", args=[event.body["about"][1]])


def _to_its_order(event: LedgerEvent) -> str:
    return reverse("vendors:order", args=[event.body["content"]["order"]])
