"""What the ledger keeps of readings on an engine, discrepancies and decisions."""

from engines.inspection.models import Answer, CarriedOut, Discrepancy, Disposition, Taken, Withdrawal, WorkAsked
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.plain import fields, worded
from shopfloor.ledger.records import register_record

SENTENCES = {
    "engine.read": "{row} at {place} was read.",
    "discrepancy.raised": "Discrepancy {number} was raised.",
    "disposition.made": "A discrepancy was decided: {kind}.",
    "disposition.seconded": "A second person signed a decision: {kind}.",
    "disposition.carried-out": "A decision was carried out.",
    "request.made": "The customer was asked about more work (request {number}): {kind}.",
    "request.answered": "The customer answered a request: {said}.",
    "request.withdrawn": "The shop took back a request to the customer.",
}
WHERE = ("area", "line", "at", "row", "place", "item", "reading", "operation")
DECIDED = ("kind", "line", "at", "row", "place", "document", "document_revision", "page")

ASKED = ("visit", "discrepancy", "number", "kind", "photos", "hours", "price", "currency", "asked_by", "asked_at")


def register() -> None:
    register_record(Taken, content=fields("reading", "visit", "item", "line", "row", "place", "taken_at"))
    raised = fields("visit", "number", *WHERE, "raised_by", "raised_at")
    register_record(Discrepancy, content=raised, private=("words",))
    made = fields("discrepancy", *DECIDED, "made_by", "made_at", "second_by", "second_at")
    register_record(Disposition, content=made, private=("words",))
    register_record(CarriedOut, content=fields("disposition", "done_by", "done_at"), private=("words",))
    register_record(WorkAsked, content=fields(*ASKED), private=("words", "parts"))
    register_record(Answer, content=fields("request", "said", "answered_by", "answered_at"), private=("words",))
    register_record(Withdrawal, content=fields("request", "withdrawn_by", "withdrawn_at"), private=("words",))
    for model in (WorkAsked, Answer, Withdrawal):
        protect(model)
    protect(Taken)
    protect(Discrepancy)
    protect(Disposition, closes=("second_by", "second_at"))
    protect(CarriedOut)
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=worded(words))
