"""What the ledger keeps of operations, entries and signatures."""

from collections.abc import Callable
from datetime import datetime

from engines.traveler.models import Entry, Operation, Reopening, Signature
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.records import register_record


def register() -> None:
    register_record(Operation, content=_operation)
    register_record(Entry, content=_entry, private=("text",))
    register_record(Signature, content=_signature, private=("shown",))
    register_record(Reopening, content=_reopening, private=("reason",))
    protect(Entry)
    protect(Signature)
    protect(Reopening)
    for kind, words in {
        "operation.planned": "{title}: planned for {stage}.",
        "operation.signed": "{title}: signed.",
        "operation.accepted": "{title}: accepted by a second person.",
        "operation.reopened": "{title}: open again.",
    }.items():
        register_kind(kind, sentence=_says(words))
    register_kind("entry.made", sentence=lambda event: "Something was entered at an operation.")
    register_kind("signature.given", sentence=_says("A signature was given: {act}."))
    register_kind("reopening.noted", sentence=lambda event: "The reason for opening an operation again was noted.")


def _says(words: str) -> Callable[[LedgerEvent], str]:
    return lambda event: words.format(**event.body["content"])


def _operation(operation: Operation) -> dict[str, object]:
    return {
        "area": str(operation.area_id),
        "code": operation.code,
        "order": str(operation.order),
        "stage": operation.stage,
        "kind": operation.kind,
        "title": operation.title,
        "hold_point": operation.hold_point,
        "round": str(operation.round),
        "signed_by": _key(operation.signed_by_id),
        "signed_at": _moment(operation.signed_at),
        "accepted_by": _key(operation.accepted_by_id),
        "accepted_at": _moment(operation.accepted_at),
    }


def _entry(entry: Entry) -> dict[str, object]:
    return {
        "operation": str(entry.operation_id),
        "round": str(entry.round),
        "entered_by": str(entry.entered_by_id),
        "entered_at": moment(entry.entered_at),
    }


def _signature(signature: Signature) -> dict[str, object]:
    return {
        "operation": str(signature.operation_id),
        "round": str(signature.round),
        "act": str(signature.act),
        "shown_sha256": signature.shown_sha256,
        "signed_by": str(signature.signed_by_id),
        "signed_at": moment(signature.signed_at),
    }


def _reopening(reopening: Reopening) -> dict[str, object]:
    return {
        "operation": str(reopening.operation_id),
        "round": str(reopening.round),
        "reopened_by": str(reopening.reopened_by_id),
        "reopened_at": moment(reopening.reopened_at),
    }


def _key(key: object) -> str | None:
    return None if key is None else str(key)


def _moment(at: datetime | None) -> str | None:
    return moment(at) if at else None
