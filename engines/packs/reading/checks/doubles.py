"""Codes are used once, and the lines of one limit row tell of the same thing."""

from collections.abc import Hashable, Iterable, Iterator

from engines.packs.reading.draft import Draft
from engines.packs.reading.mistakes import LIMITS, PACK, PARTS, ROUTE, Mistake

SAME = ("part", "condition", "required", "from_row", "quantity", "outer_row", "inner_row")


def nothing_is_listed_twice(draft: Draft) -> Iterator[Mistake]:
    yield from _twice(PACK, "area", ((line, area.code) for line, area in draft.areas))
    yield from _twice(PACK, "set", ((line, each.code) for line, each in draft.renewed_sets))
    yield from _twice(PACK, "caution", ((line, caution.code) for line, caution in draft.cautions))
    yield from _twice(PACK, "directive", ((line, directive.number) for line, directive in draft.directives))
    pairings = ((line, (each.fit, each.outer_class, each.inner_class)) for line, each in draft.pairings)
    yield from _twice(PACK, "pairing", pairings)
    yield from _twice(PACK, "run step", ((line, step.code) for line, step in draft.run_steps))
    yield from _twice(PACK, "run check", ((line, check.code) for line, check in draft.run_checks))
    limits = ((line, (each.channel, each.step or "every step")) for line, each in draft.run_limits)
    yield from _twice(PACK, "run limit", limits)
    yield from _twice(PARTS, "line", ((line, each.line) for line, each in draft.lines))
    yield from _twice(ROUTE, "operation", ((line, operation.code) for line, operation in draft.operations))


def variants_agree(draft: Draft) -> Iterator[Mistake]:
    """The lines of a row differ by size class and serials in their figures, not in what they are."""
    for row, placed in draft.rows.items():
        first = placed[0]
        for each in placed[1:]:
            for name in SAME:
                if each.entry.fields[name] != first.entry.fields[name]:
                    wrong = f"{name} of row “{row}” is not what it is on line {first.line}"
                    yield Mistake(LIMITS, each.line, wrong, f"every line of a row has the same {name}; else name a new row")


def _twice(file: str, what: str, codes: Iterable[tuple[int, Hashable]]) -> Iterator[Mistake]:
    seen: dict[Hashable, int] = {}
    for line, code in codes:
        if code and code in seen:
            shown = " / ".join(part or "standard" for part in code) if isinstance(code, tuple) else code
            yield Mistake(file, line, f"the {what} “{shown}” stands on line {seen[code]} already", "keep one, or name it anew")
        seen.setdefault(code, line)
