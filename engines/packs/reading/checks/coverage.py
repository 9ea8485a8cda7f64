"""Nothing may be forgotten: every part is tagged, every required characteristic has an operation that reads it."""

from collections.abc import Iterator

from engines.catalogue.data import STAGES, Operation
from engines.packs.reading.draft import Draft
from engines.packs.reading.limits import AS_RECEIVED
from engines.packs.reading.mistakes import LIMITS, PARTS, ROUTE, Mistake, quoted
from engines.steps.kinds.reading import ReadingStep
from engines.steps.kinds.strip_and_tag import StripAndTag
from engines.steps.registry import STEPS

TAG, READING = StripAndTag.name, ReadingStep.name
TOO_LATE = STAGES[STAGES.index("inspection") + 1 :]
UNTRACKED = "none"


def every_part_is_tagged(draft: Draft) -> Iterator[Mistake]:
    tagged: dict[str, str] = {}
    for line, operation in draft.operations:
        for name in operation.names if _may_be(operation, TAG) else ():
            part = draft.line_by_code.get(name)
            if name in tagged and operation.kind == TAG:
                yield Mistake(ROUTE, line, f"{quoted(name)} is tagged by {quoted(tagged[name])} already", "tag each line once")
            if part and part.tracking == UNTRACKED and operation.kind == TAG:
                wrong = f"{quoted(name)} is tagged, but its tracking is none"
                yield Mistake(ROUTE, line, wrong, "leave it out, or track it by serial or mark")
            tagged.setdefault(name, operation.code)
    for line, part in draft.lines:
        if not part.renew and part.tracking != UNTRACKED and part.line not in tagged:
            right = f"name it in a {TAG} operation of the area {part.area}"
            yield Mistake(PARTS, line, f"no operation tags {quoted(part.line)}", right)


def everything_required_is_read(draft: Draft) -> Iterator[Mistake]:
    reading = [operation for _, operation in draft.operations if _may_be(operation, READING)]
    read = {name for operation in reading if operation.stage not in TOO_LATE for name in operation.names}
    for row, placed in draft.rows.items():
        line, limit = placed[0]
        if limit.is_read and _needed(limit.fields) and row not in read:
            right = f"name it in a {READING} operation up to inspection, or write no into required"
            yield Mistake(LIMITS, line, f"row {quoted(row)} is required, and no operation reads it", right)


def nothing_renewed_is_read(draft: Draft) -> Iterator[Mistake]:
    """A part that is never used again is not measured as received; its successor may be, as assembled."""
    for line, limit in draft.limits:
        part = draft.line_by_code.get(limit.fields["part"])
        if part and part.renew and limit.is_read and _needed(limit.fields):
            wrong = f"row {quoted(limit.row)} is required as received, but {quoted(part.line)} is never used again"
            yield Mistake(LIMITS, line, wrong, "write no into required, or as assembled into condition")


def _may_be(operation: Operation, kind: str) -> bool:
    """Whether it is of the kind; one of a kind that is not known may be."""
    return operation.kind == kind or operation.kind not in STEPS


def _needed(fields: dict[str, object]) -> bool:
    return bool(fields["required"]) and fields["condition"] == AS_RECEIVED
