"""Recording an act: one event in each chain that it touches, under one act id."""

import re
import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from functools import partial

from django.db import DEFAULT_DB_ALIAS, connections
from django.db.models import Model
from uuid_utils.compat import uuid7

from shopfloor.ledger import append, kinds
from shopfloor.ledger.canonical import canonical, moment
from shopfloor.ledger.records import record_kind
from shopfloor.ledger.texts import PrivateText, veil

CHAIN_NAME = re.compile(r"[a-z][a-z0-9_.:-]{0,79}")


class OutsideTransaction(RuntimeError):
    """An event that could outlive, or be outlived by, the change it records."""

    def __init__(self) -> None:
        super().__init__("An event is recorded in the same transaction as its change: call record inside transaction.atomic().")


class BadEntry(ValueError):
    """An entry that names no registered kind, or no proper chain."""


@dataclass(frozen=True)
class Entry:
    """What goes into one chain: `of` is kept in full as it stands now, `facts` are open, `texts` are private to `of`."""

    chain: str
    kind: str
    of: Model | None = None
    facts: Mapping[str, object] = field(default_factory=dict)
    texts: Mapping[str, str] = field(default_factory=dict)


def record(*entries: Entry, by: int | None, at: datetime, using: str = DEFAULT_DB_ALIAS) -> uuid.UUID:
    """Append `entries` as one act of person `by` at `at`; returns the act id.

    Chains that do not exist yet are made, each with its own event in `shop`. Raises OutsideTransaction, BadEntry,
    NotRegistered and NotCanonical, before anything is written.
    """
    connection = connections[using]
    if not connection.in_atomic_block:
        raise OutsideTransaction
    if not entries:
        raise BadEntry("An act needs at least one entry.")
    for entry in entries:
        _check(entry)
    act = uuid7()
    chains = sorted(entry.chain for entry in entries)
    heading = {"act": str(act), "at": moment(at), "by": by, "chains": chains}
    events, texts = [], []
    for entry in entries:
        event, private = _event(entry, heading)
        events.append(event)
        texts.extend(private)
    might_be_new = sorted({*chains, append.SHOP})
    append.append(connection, append.Act(act, by, at, events, might_be_new, partial(_creation, heading=heading), texts))
    return act


def _check(entry: Entry) -> None:
    if not CHAIN_NAME.fullmatch(entry.chain):
        raise BadEntry(f"{entry.chain!r} is no chain name: small letters, digits and _ . : - only, at most 80.")
    if not kinds.is_registered(entry.kind):
        raise BadEntry(f"{entry.kind!r} is no kind of event: call register_kind for it in the room's AppConfig.ready().")
    if entry.texts and entry.of is None:
        raise BadEntry(f"{entry.kind}: private texts need the record they belong to, or nobody could erase them.")


def _event(entry: Entry, heading: Mapping[str, object]) -> tuple[append.NewEvent, list[PrivateText]]:
    label, pk, content = "", "", None
    private: list[PrivateText] = []
    if entry.of is not None:
        kind = record_kind(entry.of._meta.label_lower)
        label, pk = kind.label, str(entry.of.pk)
        fields, private = veil(kind.private_texts(entry.of), label, pk)
        content = {**kind.open_content(entry.of), **fields}
    texts, more = veil(dict(entry.texts), label, pk)
    body = {
        **heading,
        "kind": entry.kind,
        "about": [label, pk] if label else None,
        "content": content,
        "facts": entry.facts,
        "texts": texts,
    }
    return append.NewEvent(entry.chain, entry.kind, label, pk, canonical(body)), [*private, *more]


def _creation(chain: str, heading: Mapping[str, object]) -> append.NewEvent:
    body = {
        **heading,
        "chains": [append.SHOP],
        "kind": append.CHAIN_CREATED,
        "about": [append.CHAIN_LABEL, chain],
        "content": None,
        "facts": {"chain": chain},
        "texts": {},
    }
    return append.NewEvent(append.SHOP, append.CHAIN_CREATED, append.CHAIN_LABEL, chain, canonical(body))
