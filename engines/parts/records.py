"""What the ledger keeps of items, fitments and evidence."""

from collections.abc import Callable
from datetime import datetime

from django.urls import reverse

from engines.parts.models import Certificate, Engine, Fitment, Item
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.records import register_record


def register() -> None:
    register_record(Item, content=_item, private=("scrapped_reason",))
    register_record(Engine, content=_engine)
    register_record(Fitment, content=_fitment, private=("removed_reason",))
    register_record(Certificate, content=_certificate, private=("issued_by",))
    protect(Item, closes=("scrapped_at", "scrapped_by", "scrapped_reason"))
    protect(Engine)
    protect(Fitment, closes=("removed_at", "removed_known_at", "removed_by", "removed_reason"))
    protect(Certificate)
    register_kind("item.added", sentence=_says("{name}, part number {part_number}, was put on record."), link=_to_item)
    register_kind("item.scrapped", sentence=_says("{name}, part number {part_number}, was scrapped."), link=_to_item)
    register_kind("engine.added", sentence=lambda event: "An engine was put on record.", link=_to_item)
    register_kind("item.fitted", sentence=_says("An item was fitted as {line} at {place}."), link=_to_fitted)
    register_kind("item.removed", sentence=_says("An item was removed from {line} at {place}."), link=_to_fitted)
    register_kind("evidence.booked", sentence=_says("Evidence of eligibility was booked: {kind} {number}."), link=_to_fitted)


def _says(words: str) -> Callable[[LedgerEvent], str]:
    return lambda event: words.format(**event.body["content"])


def _to_item(event: LedgerEvent) -> str:
    return reverse("parts:item", args=[event.body["about"][1]])


def _to_fitted(event: LedgerEvent) -> str:
    return reverse("parts:item", args=[event.body["content"]["item"]])


def _item(item: Item) -> dict[str, object]:
    return {
        "part_number": item.part_number,
        "name": item.name,
        "serial": item.serial,
        "mark": item.mark,
        "tracking": str(item.tracking),
        "quantity": str(item.quantity),
        "lot": _key(item.lot_id),
        "customer": _key(item.customer_id),
        "origin": item.origin,
        "known_at": moment(item.known_at),
        "added_by": str(item.added_by_id),
        "scrapped_at": _moment(item.scrapped_at),
        "scrapped_by": _key(item.scrapped_by_id),
    }


def _engine(engine: Engine) -> dict[str, object]:
    return {"item": str(engine.item_id), "model": str(engine.model_id), "customer": str(engine.customer_id)}


def _fitment(fitment: Fitment) -> dict[str, object]:
    return {
        "item": str(fitment.item_id),
        "root": str(fitment.root_id),
        "line": fitment.line,
        "place": fitment.place,
        "fitted_at": moment(fitment.fitted_at),
        "fitted_known_at": moment(fitment.fitted_known_at),
        "fitted_by": str(fitment.fitted_by_id),
        "removed_at": _moment(fitment.removed_at),
        "removed_known_at": _moment(fitment.removed_known_at),
        "removed_by": _key(fitment.removed_by_id),
    }


def _certificate(certificate: Certificate) -> dict[str, object]:
    return {
        "item": str(certificate.item_id),
        "kind": certificate.kind,
        "number": certificate.number,
        "issued_on": certificate.issued_on.isoformat() if certificate.issued_on else None,
        "file": certificate.file.sha256 if certificate.file else None,
        "booked_by": str(certificate.booked_by_id),
        "booked_at": moment(certificate.booked_at),
    }


def _key(key: object) -> str | None:
    return None if key is None else str(key)


def _moment(at: datetime | None) -> str | None:
    return moment(at) if at else None
