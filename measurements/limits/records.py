"""What the ledger keeps of a limit table: its name, its state, and the hash of all its rows as they stand."""

import hashlib

from django.forms.models import model_to_dict

from measurements.limits.models import LimitRow, LimitTable
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import canonical, moment
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.records import register_record


def register() -> None:
    register_record(LimitTable, content=_content)
    protect(LimitRow)
    register_kind("limits.added", sentence=_says("was written down as a draft"))
    register_kind("limits.approved", sentence=_says("was approved"))
    register_kind("limits.superseded", sentence=_says("gave way to a newer revision"))


def rows_hash(rows: list[LimitRow]) -> str:
    """SHA-256 over every field of every row, in order."""
    plain = [{name: _text(value) for name, value in model_to_dict(row, exclude=["table"]).items()} for row in rows]
    return hashlib.sha256(canonical(plain)).hexdigest()


def _text(value: object) -> object:
    if isinstance(value, list):
        return [str(each) for each in value]
    return "" if value is None else str(value)


def _content(table: LimitTable) -> dict[str, object]:
    return {
        "subject": table.subject,
        "revision": table.revision,
        "state": str(table.state),
        "rows_sha256": rows_hash(list(table.rows.order_by("order"))),
        "added_at": moment(table.added_at),
    }


def _says(words: str):  # type: ignore[no-untyped-def]
    def sentence(event: LedgerEvent) -> str:
        content = event.body["content"]
        return f"Limit table {content['subject']}, revision {content['revision']}, {words}."

    return sentence
