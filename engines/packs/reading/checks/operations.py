"""What the operations of the route name, as their kind wants it."""

from collections.abc import Callable, Iterator

from engines.catalogue.data import ENGINE, Operation, Source
from engines.packs.reading.checks.names import unknown
from engines.packs.reading.draft import Draft, Limit
from engines.packs.reading.fields import CITED_MOST
from engines.packs.reading.mistakes import ROUTE, Mistake, quoted
from engines.steps.registry import STEPS
from engines.steps.work import FITS, PARTS, ROWS, Step

WANTED: dict[str, tuple[str, Callable[[Limit], bool]]] = {
    ROWS: ("a row that is read", lambda row: row.is_read),
    FITS: ("a fit", lambda row: row.is_fit),
}


def operations_name_what_exists(draft: Draft) -> Iterator[Mistake]:
    codes = {caution.code for _, caution in draft.cautions}
    for line, operation in draft.operations:
        yield from unknown(ROUTE, line, "area", operation.area, draft.area_codes)
        yield from unknown(ROUTE, line, "caution", operation.caution, codes)
        for before in operation.after:
            yield from unknown(ROUTE, line, "operation", before, draft.operation_by_code)
        step = STEPS.get(operation.kind)
        if step and step.needs_names and not operation.names:
            yield Mistake(ROUTE, line, f"the operation {quoted(operation.code)} names nothing", "fill in names")
        for name in operation.names if step else ():
            yield from _named(draft, line, operation, name)


def details_suit_their_kind(draft: Draft) -> Iterator[Mistake]:
    for line, operation in draft.operations:
        step = STEPS.get(operation.kind)
        if step is None:
            continue
        for sentence in step.check_details(operation, draft.data):
            yield Mistake(
                ROUTE,
                line,
                f"the operation {quoted(operation.code)}: {sentence}",
                f"write down in details only what a {step.name} needs",
            )
        for source in operation.cited[1:]:
            yield from _too_long(line, operation, source)
        if operation.finds and not step.can_find:
            wrong = f"the operation {quoted(operation.code)} finds {operation.finds}, but a {step.words} finds nothing"
            kinds = ", ".join(each.name for each in STEPS.values() if each.can_find)
            yield Mistake(ROUTE, line, wrong, f"leave finds out, or use one of the kinds {kinds}")


def _too_long(line: int, operation: Operation, source: Source) -> Iterator[Mistake]:
    """What the details cite is checked page by page as every other source is, so it has the same lengths."""
    for name, most in CITED_MOST.items():
        if len(getattr(source, name)) > most:
            wrong = f"the operation {quoted(operation.code)}: {name} {quoted(getattr(source, name))} is too long"
            yield Mistake(ROUTE, line, wrong, f"at most {most} characters fit")


def _named(draft: Draft, line: int, operation: Operation, name: str) -> Iterator[Mistake]:
    step = STEPS[operation.kind]
    if step.names_what in WANTED:
        yield from _row(draft, line, operation, name)
    elif step.names_what == PARTS:
        yield from _part(draft, line, operation, name, step)
    else:
        wrong = f"the operation {quoted(operation.code)} names {quoted(name)}"
        yield Mistake(ROUTE, line, wrong, f"a {step.words} names nothing: leave names out")


def _row(draft: Draft, line: int, operation: Operation, name: str) -> Iterator[Mistake]:
    rows = draft.rows.get(name)
    if rows is None:
        yield from unknown(ROUTE, line, "limit row", name, draft.rows)
        return
    wanted, holds = WANTED[STEPS[operation.kind].names_what]
    if not holds(rows[0].entry):
        is_it = "a fit" if rows[0].entry.is_fit else "derived" if rows[0].entry.is_derived else "read"
        right = f"a {operation.kind} operation names {wanted}"
        yield Mistake(ROUTE, line, f"the operation {quoted(operation.code)} names {quoted(name)}, which is {is_it}", right)


def _part(draft: Draft, line: int, operation: Operation, name: str, step: Step) -> Iterator[Mistake]:
    """Parts are taken off and put on in their own area, or when the areas have become one engine."""
    part = draft.line_by_code.get(name)
    if part is None:
        yield from unknown(ROUTE, line, "parts list line", name, draft.line_by_code)
    elif step.moves_parts and operation.area != ENGINE and part.area != operation.area:
        wrong = f"{quoted(name)} belongs to the area {quoted(part.area)}, not to {quoted(operation.area)}"
        yield Mistake(ROUTE, line, wrong, f"a {operation.kind} operation names parts of its own area")
