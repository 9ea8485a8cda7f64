"""How each part that an operation sends out stands: to be ordered, on its way, to be looked at, or done with."""

from dataclasses import dataclass

from engines.inspection.ends import last_decision
from engines.inspection.models import Discrepancy
from engines.inspection.standing import NEW_PART, Kind
from engines.steps.deciding import ACCEPTS
from engines.steps.spots import as_value
from engines.steps.work import Spot, Work
from engines.vendors.models import OutsideWork, Seen
from engines.visits.models import Tagged

ORDER, LOOK, STAYS = "ordered", "looked at", "stays here"
ASKS = {ORDER: "order the work", LOOK: "look at what came back"}
IN_PLACE = "it came in place of the one that was to go out"


@dataclass(frozen=True)
class Standing:
    """`act` is what is asked of the person at the operation now, blank where nothing is; `why` says what is still open.

    `may_stay` says when it need not go out, blank where the data know of no such case.
    """

    spot: Spot
    why: str = ""
    act: str = ""
    order: OutsideWork | None = None
    may_stay: str = ""

    @property
    def done(self) -> bool:
        return not self.why

    @property
    def question(self) -> str:
        return f"{ASKS[self.act]}: {', '.join(self.spot)}"


def standings(work: Work) -> list[Standing]:
    return [_standing(work, spot) for spot in work.spots]


def _standing(work: Work, spot: Spot) -> Standing:
    tagged = work.now.tagged.get(spot)
    if tagged is None:
        return Standing(spot, "it has no identity yet: strip and tag it before it goes out")
    if tagged.item_id is None or _stays(work, spot, tagged):
        return Standing(spot)
    order = order_of(work, tagged)
    if order is None:
        return _to_order(work, tagged, "no work is ordered of a vendor")
    if not order.is_back:
        return Standing(spot, f"order {order.number} with {order.vendor.name}: {order.standing}", order=order)
    if not hasattr(order, "look"):
        return Standing(spot, f"order {order.number}: {order.standing}", LOOK, order)
    if order.look.verdict == Seen.AS_ASKED:
        return Standing(spot, order=order)
    return _after_wrong(work, tagged, order)


def order_of(work: Work, tagged: Tagged) -> OutsideWork | None:
    """The order of this operation for the part that counts now: made or looked at in this round, or not come to its end."""
    here = {entry.get("order") for entry in work.entries}
    mine = (each for each in work.now.outside if each.operation == work.operation.code and each.item_id == tagged.item_id)
    able = [each for each in mine if not hasattr(each, "withdrawal")]
    counts = [each for each in able if str(each.number) in here or not hasattr(each, "look")]
    return counts[-1] if counts else None


def _stays(work: Work, spot: Spot, tagged: Tagged) -> bool:
    said = [entry for entry in work.entries if entry["spot"] == as_value(spot) and entry.get("key") == str(tagged.item_id)]
    return bool(said) and said[-1]["act"] == STAYS


def _to_order(work: Work, tagged: Tagged, why: str, order: OutsideWork | None = None) -> Standing:
    may_stay = work.operation.details.get("unless") or (IN_PLACE if tagged.in_place_of_id else "")
    return Standing((tagged.line, tagged.place), why, ORDER, order, may_stay)


def _after_wrong(work: Work, tagged: Tagged, order: OutsideWork) -> Standing:
    spot = (tagged.line, tagged.place)
    found = _raised(work, spot, order)
    decided = last_decision(found) if found else None
    if found is None or decided is None:
        number = f"discrepancy {found.number}" if found else "what is wrong with it"
        return Standing(spot, f"{number} is not decided", order=order)
    if decided.kind in ACCEPTS or (decided.kind == Kind.REWORK and hasattr(decided, "carried_out")):
        return Standing(spot, order=order)
    if decided.kind in NEW_PART:
        return Standing(spot, f"“{decided.kind}” is decided: tag the part that takes its place", order=order)
    return _to_order(work, tagged, f"it came back {order.look.verdict} and has to be reworked", order)


def _raised(work: Work, spot: Spot, order: OutsideWork) -> Discrepancy | None:
    """What the look at that order brought before the inspector."""
    mine = (each for each in work.now.discrepancies if each.operation == work.operation.code and (each.line, each.at) == spot)
    return next((each for each in mine if each.raised_at == order.look.looked_at), None)
