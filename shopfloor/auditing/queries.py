"""A page of the ledger: the events asked for, in words, with the names of those who acted. Two queries, whatever its size."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from shopfloor.ledger.kinds import link_of, sentence_of
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import events
from shopfloor.people.models import Person

PAGE = 50


@dataclass(frozen=True)
class Line:
    event: LedgerEvent
    sentence: str
    link: str | None
    by: str

    @property
    def short_hash(self) -> str:
        return bytes(self.event.hash).hex()[:12]


@dataclass(frozen=True)
class Page:
    """`older` is where the next page begins; none at the end."""

    lines: list[Line]
    older: int | None


def page(asked: Mapping[str, object]) -> Page:
    """The newest events that match `asked` (chain, kind, record, before)."""
    label, _, number = str(asked.get("record") or "").partition("/")
    found = events(chain=_text(asked, "chain"), kind=_text(asked, "kind"), about_label=label, about_id=number)
    if before := asked.get("before"):
        found = found.filter(pk__lt=before)
    rows = list(found[: PAGE + 1])
    return Page(in_words(rows[:PAGE]), rows[PAGE - 1].pk if len(rows) > PAGE else None)


def in_words(rows: Iterable[LedgerEvent]) -> list[Line]:
    rows = list(rows)
    names = dict(Person.objects.filter(pk__in={row.by for row in rows if row.by}).values_list("pk", "username"))
    return [Line(row, sentence_of(row), link_of(row), _who(row.by, names)) for row in rows]


def _text(asked: Mapping[str, object], field: str) -> str:
    return str(asked.get(field) or "")


def _who(number: int | None, names: Mapping[int, str]) -> str:
    return "the product itself" if number is None else names.get(number, f"person {number}")
