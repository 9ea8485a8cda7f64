"""Writing events behind the heads of their chains: one statement on PostgreSQL, the same steps in Python on SQLite."""

import uuid
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.backends.base.base import BaseDatabaseWrapper

from shopfloor.ledger.hashing import NOTHING_BEFORE, event_hash
from shopfloor.ledger.inserting import insert
from shopfloor.ledger.models import ChainHead, ErasableText, LedgerEvent
from shopfloor.ledger.texts import PrivateText

SHOP = "shop"
CHAIN_CREATED = "chain.created"
CHAIN_LABEL = "ledger.chain"
HEADS = f"SELECT name, sequence, hash FROM {ChainHead._meta.db_table} WHERE name IN"  # noqa: S608  no input
MOVE_ON = f"UPDATE {ChainHead._meta.db_table} SET sequence = %s, hash = %s WHERE name = %s"  # noqa: S608  no input


@dataclass(frozen=True)
class NewEvent:
    chain: str
    kind: str
    about_label: str
    about_id: str
    body: bytes


@dataclass(frozen=True)
class Act:
    """Events in their order; how each chain that might be new would begin, by name; texts to keep beside them."""

    id: uuid.UUID
    by: int | None
    at: datetime
    events: list[NewEvent]
    chains: list[str]
    creation: Callable[[str], NewEvent]
    texts: list[PrivateText]


def append(connection: BaseDatabaseWrapper, act: Act) -> None:
    if connection.vendor == "postgresql":
        _append_by_function(connection, act)
    else:
        _append_in_python(connection, act)


def _append_by_function(connection: BaseDatabaseWrapper, act: Act) -> None:
    events, creations, texts = act.events, [act.creation(chain) for chain in act.chains], act.texts
    parameters = [
        act.id,
        act.by,
        act.at,
        [event.chain for event in events],
        [event.kind for event in events],
        [event.about_label for event in events],
        [event.about_id for event in events],
        [event.body for event in events],
        [creation.about_id for creation in creations],
        [creation.body for creation in creations],
        [text.digest for text in texts],
        [text.salt for text in texts],
        [text.text for text in texts],
        [text.about_label for text in texts],
        [text.about_id for text in texts],
        [text.field for text in texts],
    ]
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT ledger_append(%s, %s, %s, %s::text[], %s::text[], %s::text[], %s::text[], %s::bytea[],"
            " %s::text[], %s::bytea[], %s::bytea[], %s::bytea[], %s::text[], %s::text[], %s::text[], %s::text[])",
            parameters,
        )


def _append_in_python(connection: BaseDatabaseWrapper, act: Act) -> None:
    # The immediate transaction already holds SQLite's only write lock: no other writer can stand between these steps.
    wanted = {event.chain for event in act.events}
    heads = _heads(connection, {*wanted, SHOP})
    new_chains = sorted(wanted - heads.keys())
    if new_chains and SHOP not in heads:
        new_chains = [SHOP, *(chain for chain in new_chains if chain != SHOP)]
    for chain in new_chains:
        heads[chain] = ChainHead(name=chain, sequence=0, hash=NOTHING_BEFORE)
    events = [act.creation(chain) for chain in new_chains] + act.events
    insert([_placed(event, heads[event.chain], act) for event in events], connection.alias)
    insert([heads[chain] for chain in new_chains], connection.alias)
    touched = {event.chain for event in events} - set(new_chains)
    with connection.cursor() as cursor:
        cursor.executemany(MOVE_ON, [(heads[chain].sequence, bytes(heads[chain].hash), chain) for chain in sorted(touched)])
    insert([ErasableText(**vars(text)) for text in act.texts], connection.alias)


def _heads(connection: BaseDatabaseWrapper, chains: Iterable[str]) -> dict[str, ChainHead]:
    names = sorted(chains)
    with connection.cursor() as cursor:
        cursor.execute(f"{HEADS} ({', '.join(['%s'] * len(names))})", names)
        return {name: ChainHead(name=name, sequence=sequence, hash=hashed) for name, sequence, hashed in cursor.fetchall()}


def _placed(event: NewEvent, head: ChainHead, act: Act) -> LedgerEvent:
    """The event behind `head`, which moves on to it."""
    sequence, previous = head.sequence + 1, bytes(head.hash)
    head.sequence, head.hash = sequence, event_hash(event.chain, sequence, previous, event.body)
    return LedgerEvent(
        chain=event.chain,
        sequence=sequence,
        kind=event.kind,
        act=act.id,
        by=act.by,
        at=act.at,
        about_label=event.about_label,
        about_id=event.about_id,
        body_bytes=event.body,
        previous=previous,
        hash=head.hash,
    )
