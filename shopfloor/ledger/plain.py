"""What most records and events need: named fields as the ledger keeps them, and a sentence made of them."""

from collections.abc import Callable
from datetime import date, datetime

from django.db.models import Model

from shopfloor.ledger.canonical import moment
from shopfloor.ledger.models import LedgerEvent

Plain = str | bool | list[str] | None


def fields(*names: str) -> Callable[[Model], dict[str, Plain]]:
    """The open content of a record: the named fields, a relation by its key, every figure and moment as text."""
    return lambda record: {name: plain(getattr(record, record._meta.get_field(name).attname)) for name in names}  # type: ignore[union-attr]


def plain(value: object) -> Plain:
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, datetime):
        return moment(value)
    if isinstance(value, date):
        return value.isoformat()
    return [str(each) for each in value] if isinstance(value, list) else str(value)


def worded(words: str) -> Callable[[LedgerEvent], str]:
    """A sentence that names fields of the record in braces."""
    return lambda event: words.format(**event.body["content"])
