"""What the ledger keeps of readings on an engine, discrepancies and decisions."""

from collections.abc import Callable

from engines.inspection.models import CarriedOut, Discrepancy, Disposition, Taken
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.records import register_record

SENTENCES = {
    "engine.read": "{row} at {place} was read.",
    "discrepancy.raised": "Discrepancy {number} was raised.",
    "disposition.made": "A discrepancy was decided: {kind}.",
    "disposition.seconded": "A second person signed a decision: {kind}.",
}


def register() -> None:
    register_record(Taken, content=_taken)
    register_record(Discrepancy, content=_discrepancy, private=("words",))
    register_record(Disposition, content=_disposition, private=("words",))
    register_record(CarriedOut, content=_carried_out, private=("words",))
    protect(Taken)
    protect(Discrepancy)
    protect(Disposition, closes=("second_by", "second_at"))
    protect(CarriedOut)
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=_says(words))
    register_kind("disposition.carried-out", sentence=lambda event: "A decision was carried out.")


def _says(words: str) -> Callable[[LedgerEvent], str]:
    return lambda event: words.format(**event.body["content"])


def _taken(taken: Taken) -> dict[str, object]:
    return {
        "reading": str(taken.reading_id),
        "visit": str(taken.visit_id),
        "item": _key(taken.item_id),
        "line": taken.line,
        "row": taken.row,
        "place": taken.place,
        "taken_at": moment(taken.taken_at),
    }


def _discrepancy(found: Discrepancy) -> dict[str, object]:
    return {
        "visit": str(found.visit_id),
        "number": str(found.number),
        "area": found.area,
        "line": found.line,
        "at": found.at,
        "row": found.row,
        "place": found.place,
        "item": _key(found.item_id),
        "reading": _key(found.reading_id),
        "operation": found.operation,
        "raised_by": str(found.raised_by_id),
        "raised_at": moment(found.raised_at),
    }


def _disposition(made: Disposition) -> dict[str, object]:
    return {
        "discrepancy": str(made.discrepancy_id),
        "kind": made.kind,
        "line": made.line,
        "at": made.at,
        "row": made.row,
        "place": made.place,
        "document": made.document,
        "document_revision": made.document_revision,
        "page": made.page,
        "made_by": str(made.made_by_id),
        "made_at": moment(made.made_at),
        "second_by": _key(made.second_by_id),
        "second_at": moment(made.second_at) if made.second_at else None,
    }


def _carried_out(done: CarriedOut) -> dict[str, object]:
    return {"disposition": str(done.disposition_id), "done_by": str(done.done_by_id), "done_at": moment(done.done_at)}


def _key(key: object) -> str | None:
    return None if key is None else str(key)
