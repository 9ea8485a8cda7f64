"""The chains by themselves: links, hashes, heads, and that no chain came or went without its event in `shop`."""

from collections import Counter
from collections.abc import Iterator
from itertools import groupby

from django.db.models import Exists, OuterRef, QuerySet

from shopfloor.ledger.append import CHAIN_CREATED, CHAIN_LABEL, SHOP
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.faults import Fault, readable_body
from shopfloor.ledger.hashing import NOTHING_BEFORE, event_hash
from shopfloor.ledger.models import ChainHead, LedgerEvent

CHUNK = 500


def check_chains(using: str) -> Iterator[Fault]:
    events = LedgerEvent.objects.using(using).order_by("chain", "sequence").iterator(CHUNK)
    for chain, its_events in groupby(events, key=lambda event: event.chain):
        yield from _check_chain(chain, its_events, ChainHead.objects.using(using).filter(name=chain).first())
    yield from _check_beginnings(using)


def _check_chain(chain: str, events: Iterator[LedgerEvent], head: ChainHead | None) -> Iterator[Fault]:
    sequence, previous = 0, NOTHING_BEFORE
    for event in events:
        if event.sequence != sequence + 1:
            yield Fault(chain, event.sequence, f"comes after {sequence}: the events between are gone.")
        elif bytes(event.previous) != previous:
            yield Fault(chain, event.sequence, "does not follow from the event before it: one of the two was changed or moved.")
        if bytes(event.hash) != event_hash(chain, event.sequence, bytes(event.previous), bytes(event.body_bytes)):
            yield Fault(chain, event.sequence, "does not match its hash: its body, its place or its hash was changed.")
        elif difference := _column_beside_body(event):
            yield Fault(
                chain, event.sequence, f"is listed with another {difference} than its body holds: the column was changed."
            )
        sequence, previous = event.sequence, bytes(event.hash)
    if head is None:
        yield Fault(chain, None, "has events but no head: the head was deleted.")
    elif (head.sequence, bytes(head.hash)) != (sequence, previous):
        yield Fault(
            chain,
            sequence,
            f"is the last event, but the head says {head.sequence}: events were cut off, or the head was changed.",
        )


def _column_beside_body(event: LedgerEvent) -> str:
    """The name of a column that says otherwise than the hashed body; empty when all agree."""
    hashed = event.body
    label, pk = hashed["about"] or ("", "")
    columns = {
        "kind": (event.kind, hashed["kind"]),
        "act": (str(event.act), hashed["act"]),
        "person": (event.by, hashed["by"]),
        "moment": (moment(event.at), hashed["at"]),
        "record": ([event.about_label, event.about_id], [label, pk]),
    }
    return next((name for name, (column, in_body) in columns.items() if column != in_body), "")


def _check_beginnings(using: str) -> Iterator[Fault]:
    heads, events = ChainHead.objects.using(using), LedgerEvent.objects.using(using)
    beginnings = events.filter(chain=SHOP, kind=CHAIN_CREATED, about_label=CHAIN_LABEL)
    if heads.exists() and not heads.filter(name=SHOP).exists():
        yield Fault(SHOP, None, "is gone: the chain that lists the beginning of every other chain was dropped.")
    empty = heads.filter(~Exists(events.filter(chain=OuterRef("name"))))
    for head in empty.iterator(CHUNK):
        yield Fault(head.name, None, f"has a head at {head.sequence} but no events: all of them were deleted.")
    for head in heads.filter(~Exists(beginnings.filter(about_id=OuterRef("name")))).iterator(CHUNK):
        yield Fault(head.name, None, "has no event in shop for its beginning: it was slipped in, or shop was cut.")
    for beginning in _without_a_head(beginnings, heads).iterator(CHUNK):
        yield Fault(beginning.about_id, None, f"was dropped as a whole: shop {beginning.sequence} records its beginning.")


def _without_a_head(beginnings: QuerySet[LedgerEvent], heads: QuerySet[ChainHead]) -> QuerySet[LedgerEvent]:
    return beginnings.filter(~Exists(heads.filter(name=OuterRef("about_id"))))


def check_acts(using: str) -> Iterator[Fault]:
    """An act names every chain that it wrote to: what one chain lost, the others still tell."""
    events = LedgerEvent.objects.using(using).exclude(kind=CHAIN_CREATED).order_by("act", "id").iterator(CHUNK)
    for act, its_events in groupby(events, key=lambda event: event.act):
        named: Counter[str] = Counter()
        found: Counter[str] = Counter()
        for event in its_events:
            named |= Counter(readable_body(event).get("chains", ()))
            found[event.chain] += 1
        for chain, lost in sorted((named - found).items()):
            yield Fault(chain, None, f"lost {lost} event(s) of act {act}, which other events of the act still name.")
