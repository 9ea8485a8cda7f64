"""The private texts against the salted hashes in the events: each matches, and none is gone unless it was erased."""

from collections.abc import Iterator, Sequence

from shopfloor.ledger.append import CHAIN_LABEL
from shopfloor.ledger.faults import Fault, readable_body
from shopfloor.ledger.hashing import text_hash
from shopfloor.ledger.models import ErasableText, LedgerEvent
from shopfloor.ledger.replay import CHUNK, in_chunks, salted_hashes


def check_texts(using: str) -> Iterator[Fault]:
    for text in ErasableText.objects.using(using).order_by("id").iterator(CHUNK):
        if text_hash(bytes(text.salt), text.text) != bytes(text.digest):
            record = f"{text.about_label} {text.about_id}"
            yield Fault("", None, f"the private text '{text.field}' of {record} does not match its hash: the text was changed.")
    events = LedgerEvent.objects.using(using).exclude(about_label__in=["", CHAIN_LABEL])
    for chunk in in_chunks(events.order_by("id").iterator(CHUNK)):
        yield from _check_missing(chunk, using)


def _check_missing(events: Sequence[LedgerEvent], using: str) -> Iterator[Fault]:
    hashes = {event.pk: _hashes(event) for event in events}
    wanted = [bytes.fromhex(digest) for fields in hashes.values() for digest in fields.values()]
    kept = ErasableText.objects.using(using).filter(digest__in=wanted).values_list("digest", flat=True)
    standing = {bytes(digest).hex() for digest in kept}
    erasures: dict[tuple[str, str], int] = {}
    for event in events:
        gone = [field for field, digest in hashes[event.pk].items() if digest not in standing]
        if not gone:
            continue
        record = event.about_label, event.about_id
        if record not in erasures:
            erasures[record] = _newest_erasure(*record, using)
        if event.pk >= erasures[record]:
            yield Fault(
                event.chain,
                event.sequence,
                f"{', '.join(gone)} of {event.about_label} {event.about_id}: the text is gone, but no later event erases it.",
            )


def _hashes(event: LedgerEvent) -> dict[str, str]:
    return {**salted_hashes(event, "content"), **{f"texts.{name}": it for name, it in salted_hashes(event, "texts").items()}}


def _newest_erasure(label: str, pk: str, using: str) -> int:
    """The id of the newest event that shows this record's private fields erased; 0 where there is none."""
    events = LedgerEvent.objects.using(using).filter(about_label=label, about_id=pk).order_by("-id")
    for event in events.iterator(CHUNK):
        if {"erased": True} in (readable_body(event).get("content") or {}).values():
            return int(event.pk)
    return 0
