"""When a part was last reworked, so that what was seen of it before is seen anew."""

from collections.abc import Iterator
from datetime import datetime

from engines.inspection.facts import Inspection
from engines.inspection.models import Disposition
from engines.inspection.standing import Kind, Spot


def reworked_at(now: Inspection, spot: Spot) -> datetime | None:
    """The moment from which on it counts as reworked; None where no rework was carried out.

    That of a finding is when it was done. One after a reading is known to be done once the part is read again; it lies somewhere
    after its decision, so nothing from before the decision is about the part as it is now. Work outside the shop is done when the
    part is back.
    """
    return max(_moments(now, spot), default=None)


def _moments(now: Inspection, spot: Spot) -> Iterator[datetime]:
    for made in (made for found in now.discrepancies for made in found.made):
        if made.kind == Kind.REWORK and (made.line, made.at) == spot:
            if hasattr(made, "carried_out"):
                yield made.carried_out.done_at
            elif made.row and _is_read_since(now, made):
                yield made.made_at
    tagged = now.tagged.get(spot)
    mine = (each for each in now.outside if each.is_back and tagged and each.item_id == tagged.item_id)
    yield from (each.back.back_at for each in mine)


def _is_read_since(now: Inspection, made: Disposition) -> bool:
    key = (made.row, made.place)
    return any((each.row, each.place) == key and each.taken_at > made.made_at for each in now.taken.values())
