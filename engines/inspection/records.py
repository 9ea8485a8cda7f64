"""What the ledger keeps of readings on an engine, discrepancies and decisions."""

from engines.inspection.models import CarriedOut, Discrepancy, Disposition, Taken
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
}
WHERE = ("area", "line", "at", "row", "place", "item", "reading", "operation")
DECIDED = ("kind", "line", "at", "row", "place", "document", "document_revision", "page")


def register() -> None:
    register_record(Taken, content=fields("reading", "visit", "item", "line", "row", "place", "taken_at"))
    raised = fields("visit", "number", *WHERE, "raised_by", "raised_at")
    register_record(Discrepancy, content=raised, private=("words",))
    made = fields("discrepancy", *DECIDED, "made_by", "made_at", "second_by", "second_at")
    register_record(Disposition, content=made, private=("words",))
    register_record(CarriedOut, content=fields("disposition", "done_by", "done_at"), private=("words",))
    protect(Taken)
    protect(Discrepancy)
    protect(Disposition, closes=("second_by", "second_at"))
    protect(CarriedOut)
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=worded(words))
