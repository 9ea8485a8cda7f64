"""What the ledger keeps of operations, entries and signatures."""

from engines.traveler.models import Authorisation, Entry, Operation, Reopening, Signature
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.plain import fields, worded
from shopfloor.ledger.records import register_record

SENTENCES = {
    "operation.planned": "{title}: planned for {stage}.",
    "operation.signed": "{title}: signed.",
    "operation.accepted": "{title}: accepted by a second person.",
    "operation.reopened": "{title}: open again.",
    "entry.made": "Something was entered at an operation.",
    "signature.given": "A signature was given: {act}.",
    "authorisation.granted": "Person {person} was authorised for {what}.",
    "authorisation.ended": "The authorisation of person {person} for {what} was ended.",
    "reopening.noted": "The reason for opening an operation again was noted.",
}
PLANNED = ("area", "code", "order", "stage", "kind", "title", "hold_point")
SIGNED = ("round", "signed_by", "signed_at", "accepted_by", "accepted_at")


def register() -> None:
    register_record(Operation, content=fields(*PLANNED, *SIGNED))
    register_record(Entry, content=fields("operation", "round", "entered_by", "entered_at"), private=("text",))
    signed = fields("operation", "round", "act", "shown_sha256", "signed_by", "signed_at", "under")
    register_record(Signature, content=signed, private=("shown",))
    register_record(Reopening, content=fields("operation", "round", "reopened_by", "reopened_at"), private=("reason",))
    spanned = ("covers", "valid_from", "valid_until", "granted_by", "granted_at", "ended_by", "ended_at")
    granted = fields("person", "what", "kinds", "level", *spanned)
    register_record(Authorisation, content=granted, private=("training",))
    protect(Authorisation, closes=("ended_by", "ended_at"))
    protect(Entry)
    protect(Signature)
    protect(Reopening)
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=worded(words))
