"""What is wrong with the ledger, in a sentence for the person who has to act on it."""

from dataclasses import dataclass
from typing import Any

from shopfloor.ledger.models import LedgerEvent


@dataclass(frozen=True)
class Fault:
    """`sequence` is none where the fault is of a whole chain or of a record."""

    chain: str
    sequence: int | None
    sentence: str

    def __str__(self) -> str:
        place = self.chain if self.sequence is None else f"{self.chain} {self.sequence}"
        return f"{place}: {self.sentence}"


def readable_body(event: LedgerEvent) -> dict[str, Any]:
    """The body, or nothing where its bytes were damaged so far that they are no body any more: the hash tells that."""
    try:
        body = event.body
    except ValueError:
        return {}
    return body if isinstance(body, dict) else {}
