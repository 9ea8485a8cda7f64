"""A pack as the four files that it can be read from."""

from collections.abc import Iterable, Mapping
from typing import Any

from engines.catalogue.data import Operation, PackData
from engines.packs.reading.head import HEAD, LISTS
from engines.packs.reading.limits import OPTIONAL, REQUIRED
from engines.packs.reading.mistakes import LIMITS, PACK, PARTS, ROUTE
from engines.packs.reading.parts import COLUMNS
from engines.packs.reading.route import KEYS
from engines.packs.writing.tables import table_of
from engines.packs.writing.yaml_text import entry_text, yaml_of


def files_of(data: PackData) -> dict[str, bytes]:
    """By name. Whatever order the keys of details had is kept too."""
    limits = [{**row, "revision": row["document_revision"]} for row in data.limits]
    texts = {
        PACK: _head(data),
        PARTS: table_of(COLUMNS, map(_plain, data.lines)),
        ROUTE: route_of(data.operations),
        LIMITS: table_of((*REQUIRED, *OPTIONAL), limits),
    }
    return {name: text.encode() for name, text in texts.items()}


def route_of(operations: Iterable[Operation]) -> str:
    """The operations as the route is written, a blank line between them."""
    return "\n".join(operation_text(each) for each in operations)


def operation_text(operation: Operation) -> str:
    plain = _plain(operation)
    return entry_text({key: plain[key] for key in KEYS})


def _head(data: PackData) -> str:
    single = {name: getattr(data, name) for name in HEAD}
    lists = {name: [_entry(part, keys) for part in getattr(data, name)] for name, keys in LISTS.items()}
    written = {**single, "cylinders": str(data.cylinders), **lists}
    return yaml_of({name: value for name, value in written.items() if value})


def _entry(part: Any, keys: Iterable[str]) -> dict[str, Any]:
    plain = _plain(part)
    return {key: plain[key] for key in keys if plain[key]}


def _plain(part: Any) -> Mapping[str, Any]:
    """Its fields with those of its source beside them."""
    return {**vars(part), **vars(part.source)}
