"""The events against the records: each row reads as its last event says, and no record that has an event is gone."""

import json
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import Any, TypeVar

from django.core.exceptions import ValidationError
from django.db.models import Max, Model, QuerySet

from shopfloor.ledger.append import CHAIN_LABEL
from shopfloor.ledger.canonical import canonical
from shopfloor.ledger.faults import Fault, readable_body
from shopfloor.ledger.models import ErasableText, LedgerEvent
from shopfloor.ledger.records import RecordKind, record_kinds
from shopfloor.ledger.texts import ERASED

CHUNK = 200
T = TypeVar("T")


def check_records(using: str) -> Iterator[Fault]:
    events = LedgerEvent.objects.using(using)
    for kind in record_kinds():
        for records in in_chunks(kind.model._base_manager.using(using).order_by("pk").iterator(CHUNK)):
            yield from _check_rows(kind, records, events)
        about = events.filter(about_label=kind.label).values_list("about_id").annotate(Max("id")).order_by("about_id")
        for places in in_chunks(about.iterator(CHUNK)):
            yield from _check_gone(kind, dict(places), events, using)
    known = [CHAIN_LABEL, "", *(kind.label for kind in record_kinds())]
    for label, first in (
        events.exclude(about_label__in=known).values_list("about_label").annotate(Max("id")).order_by("about_label")
    ):
        event = events.get(pk=first)
        yield Fault(event.chain, event.sequence, f"is about a {label}, which no room registers: its record cannot be checked.")


def in_chunks(rows: Iterable[T]) -> Iterator[list[T]]:
    rest = iter(rows)
    while chunk := list(islice(rest, CHUNK)):
        yield chunk


def _check_rows(kind: RecordKind, records: Sequence[Model], events: QuerySet[LedgerEvent]) -> Iterator[Fault]:
    about = events.filter(about_label=kind.label, about_id__in=[str(record.pk) for record in records])
    newest = about.order_by().values("about_id").annotate(newest=Max("id")).values("newest")
    last_events = {event.about_id: event for event in events.filter(pk__in=newest)}
    texts = _texts_of(last_events.values(), events.db)
    for record in records:
        event = last_events.get(str(record.pk))
        if event is None:
            yield Fault("", None, f"{kind.label} {record.pk} stands in the database, but no event tells of it.")
        elif changed := _changed_fields(kind, record, readable_body(event).get("content") or {}, texts):
            yield Fault(
                event.chain,
                event.sequence,
                f"{kind.label} {record.pk} no longer reads as recorded here: {', '.join(changed)} changed without an event.",
            )


def _texts_of(events: Iterable[LedgerEvent], using: str) -> dict[str, str]:
    digests = [bytes.fromhex(digest) for event in events for digest in salted_hashes(event, "content").values()]
    kept = ErasableText.objects.using(using).filter(digest__in=digests)
    return {bytes(text.digest).hex(): text.text for text in kept}


def salted_hashes(event: LedgerEvent, part: str) -> dict[str, str]:
    """Field -> hex digest, of the private texts that one part of the body stands for."""
    fields = readable_body(event).get(part) or {}
    return {name: value["salted"] for name, value in fields.items() if isinstance(value, dict) and "salted" in value}


def _changed_fields(kind: RecordKind, record: Model, recorded: dict[str, Any], texts: dict[str, str]) -> list[str]:
    """The recorded fields that read otherwise now. Fields that came later are not in the event and cannot be compared."""
    now: dict[str, Any] = {**json.loads(canonical(kind.open_content(record))), **kind.private_texts(record)}
    return sorted(field for field, value in recorded.items() if field not in now or not _same(value, now[field], texts))


def _same(recorded: object, now: object, texts: dict[str, str]) -> bool:
    if isinstance(recorded, dict) and "salted" in recorded:
        # A text that is gone without erasure is named by check_texts; here only a text that differs is.
        return now == texts.get(recorded["salted"], now) and now != ERASED
    if recorded == {"erased": True}:
        return now == ERASED
    return recorded == now


def _check_gone(kind: RecordKind, newest: dict[str, int], events: QuerySet[LedgerEvent], using: str) -> Iterator[Fault]:
    rows = kind.model._base_manager.using(using).filter(pk__in=list(_keys(kind.model, newest)))
    standing = {str(pk) for pk in rows.values_list("pk", flat=True)}
    gone = [event_id for about_id, event_id in newest.items() if about_id not in standing]
    for event in events.filter(pk__in=gone).order_by("id"):
        yield Fault(event.chain, event.sequence, f"{kind.label} {event.about_id} is gone from the database; its events remain.")


def _keys(model: type[Model], ids: Iterable[str]) -> Iterator[object]:
    """The ids as keys of the model; one that cannot be a key is passed over, so its record counts as gone."""
    for text in ids:
        try:
            yield model._meta.pk.to_python(text)
        except ValidationError:
            continue
