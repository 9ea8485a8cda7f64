"""What the ledger keeps of a visit, and the sentence of each event."""

from collections.abc import Callable
from datetime import datetime

from engines.visits.models import ImpactLine, Photo, Received, StageMove, Tagged, Tray, Visit, VisitArea
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.records import register_record

SENTENCES = {
    "visit.received": "The engine was received as visit {number}, for {scope}.",
    "visit.noted": "At receiving it was noted: {what}.",
    "visit.photographed": "A photo was taken.",
    "area.opened": "{name} began its way through the shop on bench {bench}.",
    "area.moved": "{name} came to the stage {stage}.",
    "area.benched": "{name} went to bench {bench}.",
    "stage.moved": "A move from {before} to {after} was signed.",
    "tray.hung": "Tray {tag} was given to the engine.",
    "part.tagged": "{line} at {place} was tagged.",
    "impact.listed": "Newer engine data was listed against the visit.",
    "impact.settled": "A change in the engine data was settled for the visit.",
}


def register() -> None:
    register_record(Visit, content=_visit)
    register_record(VisitArea, content=_area)
    register_record(StageMove, content=_move, private=("reason",))
    register_record(Received, content=_received, private=("words",))
    register_record(Photo, content=_photo, private=("words",))
    register_record(Tray, content=_tray)
    register_record(Tagged, content=_tagged, private=("as_found",))
    register_record(ImpactLine, content=_impact, private=("settled_words",))
    for model in (StageMove, Received, Photo, Tagged):
        protect(model)
    protect(ImpactLine, closes=("settled_words", "settled_by", "settled_at"))
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=_says(words))


def _says(words: str) -> Callable[[LedgerEvent], str]:
    return lambda event: words.format(**event.body["content"])


def _visit(visit: Visit) -> dict[str, object]:
    return {
        "number": str(visit.number),
        "engine": str(visit.engine_id),
        "customer": str(visit.customer_id),
        "pack": str(visit.pack_id),
        "scope": visit.scope,
        "reasons": list(visit.reasons),
        "hours_since_new": visit.hours_since_new,
        "hours_since_overhaul": visit.hours_since_overhaul,
        "received_by": str(visit.received_by_id),
        "received_at": moment(visit.received_at),
        "promised_on": visit.promised_on.isoformat() if visit.promised_on else None,
        "closed_at": _moment(visit.closed_at),
    }


def _area(area: VisitArea) -> dict[str, object]:
    return {
        "visit": str(area.visit_id),
        "code": area.code,
        "name": area.name,
        "order": str(area.order),
        "stage": area.stage,
        "bench": area.bench,
        "since": moment(area.since),
    }


def _move(move: StageMove) -> dict[str, object]:
    return {
        "area": str(move.area_id),
        "before": move.before,
        "after": move.after,
        "moved_by": str(move.moved_by_id),
        "moved_at": moment(move.moved_at),
    }


def _received(note: Received) -> dict[str, object]:
    return {
        "visit": str(note.visit_id),
        "what": str(note.what),
        "standing": note.standing,
        "noted_by": str(note.noted_by_id),
        "noted_at": moment(note.noted_at),
    }


def _photo(photo: Photo) -> dict[str, object]:
    return {
        "visit": str(photo.visit_id),
        "area": photo.area,
        "sha256": photo.file.sha256,
        "taken_by": str(photo.taken_by_id),
        "taken_at": moment(photo.taken_at),
    }


def _tray(tray: Tray) -> dict[str, object]:
    return {
        "tag": tray.tag,
        "visit": str(tray.visit_id),
        "hung_at": moment(tray.hung_at),
        "emptied_at": _moment(tray.emptied_at),
    }


def _tagged(tagged: Tagged) -> dict[str, object]:
    return {
        "visit": str(tagged.visit_id),
        "area": tagged.area,
        "line": tagged.line,
        "place": tagged.place,
        "item": _key(tagged.item_id),
        "tray": _key(tagged.tray_id),
        "in_place_of": _key(tagged.in_place_of_id),
        "tagged_by": str(tagged.tagged_by_id),
        "tagged_at": moment(tagged.tagged_at),
    }


def _impact(line: ImpactLine) -> dict[str, object]:
    return {
        "visit": str(line.visit_id),
        "pack": str(line.pack_id),
        "area": line.area,
        "words": line.words,
        "listed_at": moment(line.listed_at),
        "settled_by": _key(line.settled_by_id),
        "settled_at": _moment(line.settled_at),
    }


def _key(key: object) -> str | None:
    return None if key is None else str(key)


def _moment(at: datetime | None) -> str | None:
    return moment(at) if at else None
