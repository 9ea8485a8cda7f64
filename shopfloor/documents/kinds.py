"""Kinds of paper: the rooms above register theirs here, each with one template."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from shopfloor.people.models import Person


class UnknownDocumentKind(LookupError):
    """No room has registered this kind of paper."""


@dataclass(frozen=True)
class DocumentKind:
    """`context` feeds the template in the worker; `visible_to` says who may know that the paper exists."""

    name: str
    title: str
    template: str
    context: Callable[[str], Mapping[str, Any]]
    visible_to: "Callable[[Person, str], bool]"
    filename: Callable[[str], str]


_kinds: dict[str, DocumentKind] = {}


def register_document_kind(kind: DocumentKind) -> None:
    _kinds[kind.name] = kind


def document_kind(name: str) -> DocumentKind:
    try:
        return _kinds[name]
    except KeyError:
        raise UnknownDocumentKind(f"No room makes papers of kind '{name}'.") from None


def title_of(name: str) -> str:
    """The kind's title; the bare name where no room registers it any more."""
    return _kinds[name].title if name in _kinds else name
