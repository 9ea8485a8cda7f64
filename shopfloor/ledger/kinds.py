"""Kinds of event: the sentence that a person reads and the page that it leads to."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from shopfloor.ledger.models import LedgerEvent


# What a sentence raises on a damaged body. The page must still open then: it is what the auditor came for.
UNREADABLE = (KeyError, TypeError, ValueError, IndexError, AttributeError)


@dataclass(frozen=True)
class EventKind:
    name: str
    sentence: "Callable[[LedgerEvent], str]"
    link: "Callable[[LedgerEvent], str | None]"


def _leads_nowhere(event: "LedgerEvent") -> None:
    return None


_kinds: dict[str, EventKind] = {}


def register_kind(
    name: str,
    sentence: "Callable[[LedgerEvent], str]",
    link: "Callable[[LedgerEvent], str | None]" = _leads_nowhere,
) -> None:
    _kinds[name] = EventKind(name, sentence, link)


def lead_to(name: str, link: "Callable[[LedgerEvent], str | None]") -> None:
    """Where an event leads, told by the room whose pages show it, which may lie above the room that records it."""
    _kinds[name] = replace(_kinds[name], link=link)


def is_registered(name: str) -> bool:
    return name in _kinds


def event_kinds() -> list[str]:
    return sorted(_kinds)


def sentence_of(event: "LedgerEvent") -> str:
    """The event in words; by its bare kind where no room registers that any more, or where the body was damaged."""
    kind = _kinds.get(event.kind)
    try:
        return kind.sentence(event) if kind else event.kind
    except UNREADABLE:
        return f"{event.kind} (its body cannot be read: run manage.py verify_ledger)"


def link_of(event: "LedgerEvent") -> str | None:
    kind = _kinds.get(event.kind)
    try:
        return kind.link(event) if kind else None
    except UNREADABLE:
        return None
