"""What the entries of pack.yaml and the parts list name."""

from collections.abc import Collection, Iterator

from engines.packs.reading.draft import Draft
from engines.packs.reading.mistakes import PACK, PARTS, Mistake, quoted


def entries_name_what_exists(draft: Draft) -> Iterator[Mistake]:
    for line, part in draft.lines:
        yield from unknown(PARTS, line, "area", part.area, draft.area_codes)
    for line, caution in draft.cautions:
        yield from unknown(PACK, line, "area", caution.area, draft.area_codes)
    for line, renewed in draft.renewed_sets:
        for name in renewed.lines:
            yield from unknown(PACK, line, "parts list line", name, draft.line_by_code)
    yield from _pairings(draft)


def unknown(file: str, line: int, what: str, name: str, known: Collection[str]) -> Iterator[Mistake]:
    """The mistake of naming what the pack does not have; a blank was noted when it was read."""
    if name and name not in known:
        right = f"use one of: {', '.join(known)}" if len(known) <= 12 else "name one that the pack has, or add it"
        yield Mistake(file, line, f"there is no {what} {quoted(name)}", right)


def _pairings(draft: Draft) -> Iterator[Mistake]:
    for line, pairing in draft.pairings:
        rows = draft.rows.get(pairing.fit)
        if rows is None or not rows[0].entry.is_fit:
            right = "name a row that has outer_row and inner_row"
            yield Mistake(PACK, line, f"the pairing names {quoted(pairing.fit)}, which is no fit", right)
            continue
        fit = rows[0].entry.fields
        for mate, size_class in (("outer_row", pairing.outer_class), ("inner_row", pairing.inner_class)):
            classes = {each.entry.size_class for each in draft.rows.get(fit[mate], [])}
            if classes and size_class not in classes:
                wrong = f"row {quoted(fit[mate])} has no size class {quoted(size_class or 'standard')}"
                yield Mistake(PACK, line, wrong, "pair size classes that have limit rows")
