"""A part goes to its position, also where the operation was opened again and the record has it, or another one, there."""

from datetime import datetime

from engines.parts.models import Fitment, Item
from engines.parts.queries import fitted_now
from engines.parts.services import put_in_place
from engines.steps.spots import entered_at
from engines.steps.work import Spot, Work
from shopfloor.people.models import Person


def fitted_this_visit(work: Work) -> dict[Spot, Fitment]:
    """What was fitted since the engine came in, by position."""
    fitted = fitted_now(work.visit.engine.item)
    return {spot: each for spot, each in fitted.items() if each.fitted_at >= work.visit.received_at}


def put_back(work: Work, spot: Spot, item: Item, *, by: Person, at: datetime) -> Fitment:
    """What is on record there is off, because the work is done again; so is this part at a position still open in this round.

    Raises what the parts refuse.
    """
    line, place = spot
    done = entered_at(work)
    return put_in_place(
        item=item,
        root=work.visit.engine.item,
        line=line,
        place=place,
        loose=[each[1] for each in work.spots if each not in done],
        reason=f"taken off for “{work.operation.title}”, which was done again",
        by=by,
        at=at,
    )
