"""What was signed about parts that go together holds only while they are the parts that it was said of."""

from engines.release.blockers import Blocker, Situation
from engines.steps.registry import step_of
from engines.traveler.work import works_on


def pairings_hold(situation: Situation) -> list[Blocker]:
    """A part that came after the signature, or was read as another class since, makes it void: it is opened again."""
    mine = [each for each in situation.operations if each.area_id == situation.area.pk and each.is_complete]
    signed = [each for each in mine if step_of(each.kind).is_rechecked]
    return [
        Blocker(f"{sentence} Open “{each.title}” again.", "operation", each.pk)
        for each, work in (works_on(signed, situation.now) if signed else ())
        for sentence in step_of(each.kind).missing(work)
    ]
