"""Every line of the parts list is tagged at teardown, has its end before assembly, and is new where its set is."""

from engines.inspection.ends import ends_of
from engines.release.blockers import Blocker, Situation
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
    return [
        Blocker(f"{each.name} at {each.place} has no end yet: {each.why}", "parts")
        for each in ends_of(situation.now)
        if each.area == situation.area.code and not each.end
    ]


def sets_renewed_together(situation: Situation) -> list[Blocker]:
    """Told in the area of the part that is missing."""
    wrong = (each.wrong_in(situation.area.code) for each in situation.now.sets)
    return [Blocker(sentence, "parts") for sentences in wrong for sentence in sentences]
