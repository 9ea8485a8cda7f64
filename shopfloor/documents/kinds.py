"""Kinds of paper: the rooms above register theirs here, each with one template."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import Q

if TYPE_CHECKING:
    from shopfloor.people.models import Person


class UnknownDocumentKind(LookupError):
    """No room has registered this kind of paper."""


class Subject(NamedTuple):
    """What a paper is about: the words for it, and whose thing it is (None: the shop's own)."""

    words: str
    customer_id: int | None = None


@dataclass(frozen=True)
class DocumentKind:
    """`context` feeds the template in the worker; `describe` names the subject when the paper is asked for.

    `visible_to` says which papers of this kind a person may know of, as a condition on Document: a list of papers is
    then one query, however many there are.
    """

    name: str
    title: str
    template: str
    context: Callable[[str], Mapping[str, Any]]
    describe: Callable[[str], Subject]
    visible_to: "Callable[[Person], Q]"
    filename: Callable[[str], str]


_kinds: dict[str, DocumentKind] = {}


def register_document_kind(kind: DocumentKind) -> None:
    _kinds[kind.name] = kind


def document_kind(name: str) -> DocumentKind:
    try:
        return _kinds[name]
    except KeyError:
        raise UnknownDocumentKind(f"No room makes papers of kind '{name}'.") from None


def document_kinds() -> Iterable[DocumentKind]:
    return _kinds.values()


def title_of(name: str) -> str:
    """The kind's title; the bare name where no room registers it any more."""
    return _kinds[name].title if name in _kinds else name
