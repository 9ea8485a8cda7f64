"""A new bolt comes on record with its evidence, and takes the place of the one that was discarded."""

from datetime import datetime

from engines.parts.models import Item
from engines.parts.queries import fitted_now
from engines.parts.services import fit_item, remove_item
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
    if spot in work.now.tagged:
        tag_replacement(visit=work.visit, line=line, place=place, item=item, words="in place of a discarded bolt", by=by, at=at)
    root = work.visit.engine.item
    if before := fitted_now(root).get(spot):
        remove_item(fitment=before, removed_at=at, reason="discarded by its stretch", by=by, at=at)
    fit_item(item=item, root=root, line=line, place=place, fitted_at=at, by=by, at=at)
    return item
