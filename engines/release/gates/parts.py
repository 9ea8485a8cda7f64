"""Every line of the parts list is tagged at teardown, has its end before assembly, and is new where its set is."""

from engines.inspection.ends import End, ends_of
from engines.release.blockers import Blocker, Situation
from engines.steps.kinds.accessory_fate import NOT_RECEIVED, AccessoryFate, fates_in
from engines.steps.spots import as_value
from engines.traveler.queries import entries_of_all
from engines.visits.queries import lines_to_tag


def every_part_tagged(situation: Situation) -> list[Blocker]:
    lines = (line for line in lines_to_tag(situation.now.visit) if line.area == situation.area.code)
    return [
        Blocker(f"{line.name} at {place} was not tagged: nobody knows where it is.", "area")
        for line in lines
        for place in line.places
        if (line.line, place) not in situation.now.tagged
    ]


def every_part_accounted_for(situation: Situation) -> list[Blocker]:
    """An accessory of which it is signed that it was never received is accounted for with that."""
    left = [each for each in ends_of(situation.now) if each.area == situation.area.code and not each.end]
    absent = {as_value((each.line.line, each.place)) for each in left if _was_not_there(situation, each)}
    never_came = absent & _not_received(situation) if absent else set()
    return [
        Blocker(f"{each.name} at {each.place} has no end yet: {each.why}", "parts")
        for each in left
        if as_value((each.line.line, each.place)) not in never_came
    ]


def _was_not_there(situation: Situation, end: End) -> bool:
    tagged = situation.now.tagged.get((end.line.line, end.place))
    return tagged is not None and tagged.item_id is None


def _not_received(situation: Situation) -> set[str]:
    """Positions, by their value, of which a signed operation says so."""
    signed = [each for each in situation.operations if each.kind == AccessoryFate.name and each.is_complete]
    fates = fates_in([entry.content for entry in entries_of_all(signed)])
    return {spot for spot, fate in fates.items() if fate == NOT_RECEIVED}


def sets_renewed_together(situation: Situation) -> list[Blocker]:
    """Told in the area of the part that is missing."""
    wrong = (each.wrong_in(situation.area.code) for each in situation.now.sets)
    return [Blocker(sentence, "parts") for sentences in wrong for sentence in sentences]
