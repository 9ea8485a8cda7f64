"""A new bolt comes on record with its evidence, and takes the place of the one that was discarded."""

from datetime import datetime

from engines.parts.models import Item
from engines.parts.services import put_in_place
from engines.steps.new_parts import booked_in
from engines.steps.work import Spot, StepRefused, Work
from engines.visits.services import tag_replacement
from shopfloor.people.models import Person


def renewed(work: Work, spot: Spot, identity: str, evidence: str, by: Person, at: datetime) -> Item:
    """Raises StepRefused, and what the parts refuse."""
    if not identity or not evidence:
        raise StepRefused("A new bolt needs its serial or mark, and the number of its evidence of eligibility.")
    item = booked_in(work.line(spot), identity, evidence, by, at)
    line, place = spot
    put_in_place(item=item, root=work.visit.engine.item, line=line, place=place, reason="discarded by its stretch", by=by, at=at)
    if spot in work.now.tagged:
        tag_replacement(visit=work.visit, line=line, place=place, item=item, words="in place of a discarded bolt", by=by, at=at)
    return item
