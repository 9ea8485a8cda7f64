"""What the ledger keeps of a visit, and the sentence of each event."""

import hashlib

from engines.visits.models import AddedOperation, ImpactLine, Photo, Received, StageMove, Tagged, Tray, Visit, VisitArea
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.plain import Plain, fields, worded
from shopfloor.ledger.records import register_record

SENTENCES = {
    "visit.received": "The engine was received as visit {number}, for {scope}.",
    "visit.reason-added": "Something found is another reason for the visit: {reasons}.",
    "visit.noted": "At receiving it was noted: {what}.",
    "visit.photographed": "A photo was taken.",
    "area.opened": "{name} began its way through the shop ({bench}).",
    "area.moved": "{name} came to the stage {stage}.",
    "area.benched": "{name} went to {bench}.",
    "stage.moved": "A move from {before} to {after} was signed.",
    "tray.hung": "Tray {tag} was given to the engine.",
    "tray.emptied": "Tray {tag} is free again.",
    "visit.closed": "Visit {number} was closed.",
    "part.tagged": "{line} at {place} was tagged.",
    "impact.listed": "Newer engine data was listed against the visit.",
    "addition.asked": "An operation that the engine data do not ask for was asked for: {code}, in {stage}.",
    "addition.decided": "A second person decided about the added operation {code}; approved: {approved}.",
    "visit.operation-added": "An operation was added to the route of visit {number}.",
    "impact.settled": "A change in the engine data was settled for the visit.",
}
VISIT = ("number", "engine", "customer", "pack", "scope", "reasons", "hours_since_new", "hours_since_overhaul")
STAY = ("received_by", "received_at", "promised_on", "closed_at")
RECEIVED, ADDED = fields(*VISIT, *STAY), fields("added")
ADDITION = fields("visit", "area", "stage", "code", "from_data", "asked_by", "asked_at", "approved", "decided_by", "decided_at")


def register() -> None:
    register_record(Visit, content=_visit)
    register_record(VisitArea, content=fields("visit", "code", "name", "order", "stage", "bench", "since"))
    register_record(StageMove, content=fields("area", "before", "after", "moved_by", "moved_at"), private=("reason",))
    register_record(Received, content=fields("visit", "what", "standing", "noted_by", "noted_at"), private=("words",))
    register_record(Photo, content=fields("visit", "area", "file", "taken_by", "taken_at"), private=("words",))
    register_record(Tray, content=fields("tag", "visit", "hung_at", "emptied_at"))
    tagged = fields("visit", "area", "line", "place", "item", "tray", "in_place_of", "tagged_by", "tagged_at")
    register_record(Tagged, content=tagged, private=("as_found",))
    settled = fields("visit", "pack", "area", "words", "listed_at", "settled_by", "settled_at")
    register_record(ImpactLine, content=settled, private=("settled_words",))
    register_record(AddedOperation, content=_addition, private=("reason", "decided_words"))
    protect(AddedOperation, closes=("approved", "decided_words", "decided_by", "decided_at"))
    for model in (StageMove, Received, Photo, Tagged):
        protect(model)
    protect(ImpactLine, closes=("settled_words", "settled_by", "settled_at"))
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=worded(words))


def _visit(visit: Visit) -> dict[str, Plain]:
    """What was added stands there only where something was: the events of a visit without it say nothing of it."""
    return RECEIVED(visit) | (ADDED(visit) if visit.added else {})


def _addition(added: AddedOperation) -> dict[str, Plain]:
    return {**ADDITION(added), "content_sha256": hashlib.sha256(added.content.encode()).hexdigest()}
