"""What was signed as fitted is there, and is what belongs there."""

from collections.abc import Iterator

from engines.inspection.standing import Spot
from engines.release.blockers import Blocker, Situation
from engines.steps.registry import step_of
from engines.traveler.models import Operation


def parts_in_place(situation: Situation) -> list[Blocker]:
    """A part that was taken out again, scrapped or replaced after its operation was signed is fitted at that operation."""
    mine = (each for each in situation.operations if each.area_id == situation.area.pk and each.is_complete)
    fitting = (each for each in mine if step_of(each.kind).fits_parts)
    return [
        Blocker(f"{words}: open “{each.title}” again.", "operation", each.pk)
        for each in fitting
        for words in _not_there(situation, each)
    ]


def _not_there(situation: Situation, operation: Operation) -> Iterator[str]:
    data = situation.now.rows.data
    for name in data.operation_by_code[operation.code].names:
        line = data.line_by_code[name]
        for place in line.places:
            if words := _what_is_wrong(situation, (name, place)):
                yield f"{line.name} at {place} {words}"


def _what_is_wrong(situation: Situation, spot: Spot) -> str:
    """What is tagged at a position belongs there, after an exchange too: that changes the tags with the parts."""
    now = situation.now
    fitted, tagged = now.fitted.get(spot), now.tagged.get(spot)
    if fitted is None:
        if tagged and tagged.item_id is None:
            return ""  # it never came, and nobody could fit it
        return "was fitted, and is not there any more"
    if tagged and tagged.item and fitted.item_id != tagged.item_id:
        return f"is {fitted.item}, but {tagged.item} has taken its place"
    return ""
