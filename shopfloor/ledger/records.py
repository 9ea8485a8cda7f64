"""Which records the ledger keeps in full, and which of their fields are private."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.db.models import Model


class NotRegistered(LookupError):
    """A record whose content the ledger was never told about."""

    def __init__(self, label: str) -> None:
        super().__init__(f"The ledger does not know {label}: call register_record for it in the room's AppConfig.ready().")


@dataclass(frozen=True)
class RecordKind:
    model: type[Model]
    content: Callable[[Any], Mapping[str, object]]
    private: tuple[str, ...]

    @property
    def label(self) -> str:
        return self.model._meta.label_lower

    def open_content(self, record: Model) -> dict[str, object]:
        """Everything but the private fields. Raises when the room lists a private field among the open ones."""
        content = dict(self.content(record))
        if leaked := set(content) & set(self.private):
            raise ValueError(f"{self.label}: private fields {sorted(leaked)} stand in the open content; take them out there.")
        return content

    def private_texts(self, record: Model) -> dict[str, str | None]:
        return {field: getattr(record, field) for field in self.private}


_kinds: dict[str, RecordKind] = {}


def register_record(model: type[Model], content: Callable[[Any], Mapping[str, object]], private: tuple[str, ...] = ()) -> None:
    """Tell the ledger what a record of `model` holds: `content` gives its open fields, `private` names the veiled ones.

    A field once given is given for ever, or every event that holds it reads as altered; new fields may be added.
    """
    kind = RecordKind(model, content, private)
    _kinds[kind.label] = kind


def record_kind(label: str) -> RecordKind:
    try:
        return _kinds[label]
    except KeyError:
        raise NotRegistered(label) from None


def record_kinds() -> Iterator[RecordKind]:
    yield from (_kinds[label] for label in sorted(_kinds))
