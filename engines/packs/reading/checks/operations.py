"""What the operations of the route name, as their kind wants it."""

from collections.abc import Callable, Iterator

from engines.catalogue.data import Operation
from engines.packs.reading.checks.names import unknown
from engines.packs.reading.draft import Draft, Limit
from engines.packs.reading.mistakes import ROUTE, Mistake, quoted
from engines.packs.reading.route import FITTING, INSTALLING, KINDS, READING, TAG

OF_THE_AREA = (TAG, INSTALLING)
ROWS: dict[str, tuple[str, Callable[[Limit], bool]]] = {
    READING: ("a row that is read", lambda row: row.is_read),
    FITTING: ("a fit", lambda row: row.is_fit),
}
NEED_NAMES = (*OF_THE_AREA, *ROWS)


def operations_name_what_exists(draft: Draft) -> Iterator[Mistake]:
    codes = {caution.code for _, caution in draft.cautions}
    for line, operation in draft.operations:
        yield from unknown(ROUTE, line, "area", operation.area, draft.area_codes)
        yield from unknown(ROUTE, line, "caution", operation.caution, codes)
        for before in operation.after:
            yield from unknown(ROUTE, line, "operation", before, draft.operation_by_code)
        if operation.kind in NEED_NAMES and not operation.names:
            yield Mistake(ROUTE, line, f"the operation {quoted(operation.code)} names nothing", "fill in names")
        for name in operation.names if operation.kind in KINDS else ():
            named = _row if operation.kind in ROWS else _part
            yield from named(draft, line, operation, name)


def _row(draft: Draft, line: int, operation: Operation, name: str) -> Iterator[Mistake]:
    rows = draft.rows.get(name)
    if rows is None:
        yield from unknown(ROUTE, line, "limit row", name, draft.rows)
        return
    wanted, holds = ROWS[operation.kind]
    if not holds(rows[0].entry):
        is_it = "a fit" if rows[0].entry.is_fit else "derived" if rows[0].entry.is_derived else "read"
        right = f"a {operation.kind} operation names {wanted}"
        yield Mistake(ROUTE, line, f"the operation {quoted(operation.code)} names {quoted(name)}, which is {is_it}", right)


def _part(draft: Draft, line: int, operation: Operation, name: str) -> Iterator[Mistake]:
    part = draft.line_by_code.get(name)
    if part is None:
        yield from unknown(ROUTE, line, "parts list line", name, draft.line_by_code)
    elif operation.kind in OF_THE_AREA and part.area != operation.area:
        wrong = f"{quoted(name)} belongs to the area {quoted(part.area)}, not to {quoted(operation.area)}"
        yield Mistake(ROUTE, line, wrong, f"a {operation.kind} operation names parts of its own area")
