"""The order of the route: by stages within an area, and without a circle anywhere."""

from collections.abc import Iterator, Mapping, Sequence

from engines.catalogue.data import STAGES, Operation, stages_of
from engines.packs.reading.draft import Draft
from engines.packs.reading.mistakes import ROUTE, Mistake, quoted

Node = str | tuple[str, int]  # an operation, or the end of a stage of an area


def stages_come_in_order(draft: Draft) -> Iterator[Mistake]:
    for line, operation in draft.operations:
        for code in operation.after:
            before = draft.operation_by_code.get(code)
            if before and _too_late(operation, before):
                wrong = f"{quoted(operation.code)} in {operation.stage} waits for {quoted(code)} in {before.stage}"
                yield Mistake(ROUTE, line, wrong, "within an area an operation waits only for its own stage or an earlier one")


def nothing_waits_for_itself(draft: Draft) -> Iterator[Mistake]:
    """A stage of an area begins when the one before it has ended, so circles are sought through the stages too."""
    if len(draft.operation_by_code) < len(draft.operations):  # who waits for whom is not known
        return
    waits = _waits(draft)
    lines = {operation.code: line for line, operation in draft.operations}
    for circle in circles(waits):
        named = " → ".join(each if isinstance(each, str) else f"end of {STAGES[each[1]]} of {each[0]}" for each in circle)
        line = min(lines[each] for each in circle if isinstance(each, str))
        yield Mistake(ROUTE, line, f"these wait for each other: {named}", "take one of them out of after")


def circles(waits: Mapping[Node, Sequence[Node]]) -> Iterator[list[Node]]:
    """Each circle met when everything is walked once, its first node repeated at its end. No recursion: routes are long."""
    done: set[Node] = set()
    for start in waits:
        path: dict[Node, None] = {}
        trail = [iter([start])]
        while trail:
            node = next(trail[-1], None)
            if node is None:
                trail.pop()
                if path:
                    done.add(path.popitem()[0])
            elif node in path:
                walked = list(path)
                yield [*walked[walked.index(node) :], node]
            elif node not in done:
                path[node] = None
                trail.append(iter(waits.get(node, ())))


def stages_suit_their_area(draft: Draft) -> Iterator[Mistake]:
    for line, operation in draft.operations:
        if operation.stage in STAGES and operation.area in draft.area_codes and operation.stage not in stages_of(operation.area):
            right = f"use one of {', '.join(stages_of(operation.area))}"
            yield Mistake(ROUTE, line, f"area {quoted(operation.area)} has no stage {quoted(operation.stage)}", right)


def _waits(draft: Draft) -> dict[Node, list[Node]]:
    waits: dict[Node, list[Node]] = {}
    for _, operation in draft.operations:
        if operation.stage not in STAGES:
            continue
        stage = STAGES.index(operation.stage)
        known = [draft.operation_by_code[code] for code in operation.after if code in draft.operation_by_code]
        waits[operation.code] = [before.code for before in known if not _too_late(operation, before)]
        waits[operation.code].append((operation.area, stage - 1))
        waits.setdefault((operation.area, stage), []).append(operation.code)
    for area in draft.area_codes:
        for stage in range(1, len(STAGES)):
            waits.setdefault((area, stage), []).append((area, stage - 1))
    return waits


def _too_late(operation: Operation, before: Operation) -> bool:
    known = {operation.stage, before.stage} <= set(STAGES)
    return known and before.area == operation.area and STAGES.index(before.stage) > STAGES.index(operation.stage)
