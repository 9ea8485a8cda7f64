"""One operation more than a pack has, read and held against the pack as if it stood at the end of its route."""

from collections.abc import Callable, Iterable
from typing import Any

from engines.catalogue.data import PARTS, Operation, PackData
from engines.packs.reading.checks.coverage import every_part_is_tagged
from engines.packs.reading.checks.doubles import nothing_is_listed_twice
from engines.packs.reading.checks.operations import details_suit_their_kind, operations_name_what_exists
from engines.packs.reading.checks.order import nothing_waits_for_itself, stages_come_in_order, stages_suit_their_area
from engines.packs.reading.draft import Draft, Limit, Placed
from engines.packs.reading.head import HEAD
from engines.packs.reading.mistakes import Mistake, Notes, PackMistakes
from engines.packs.reading.route import read_route

# Those of the checks that an operation more can fail.
CHECKS: tuple[Callable[[Draft], Iterable[Mistake]], ...] = (
    nothing_is_listed_twice,
    operations_name_what_exists,
    details_suit_their_kind,
    stages_suit_their_area,
    stages_come_in_order,
    nothing_waits_for_itself,
    every_part_is_tagged,
)


def read_added(text: str, data: PackData) -> Operation:
    """The operation that the text holds, in the form of route.yaml. Raises PackMistakes."""
    notes, read = Notes(), Draft()
    read_route(text, read, notes)
    if not notes:
        known = set(_mistakes(data, []))
        notes.extend(each for each in _mistakes(data, read.operations) if each not in known)
    if notes:
        raise PackMistakes(notes)
    return read.operations[0].entry


def _mistakes(data: PackData, more: list[Placed[Operation]]) -> list[Mistake]:
    lists: dict[str, Any] = {name: [Placed(0, part) for part in getattr(data, name)] for name in PARTS}
    draft = Draft(head={name: getattr(data, name) for name in HEAD}, **lists)
    draft.limits = [Placed(0, Limit(dict(row), None)) for row in data.limits]
    draft.operations += more
    return [mistake for check in CHECKS for mistake in check(draft)]
