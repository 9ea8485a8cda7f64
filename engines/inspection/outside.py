"""What work outside the shop means for readings: it is a rework, so what was read before is history and is read anew."""

from collections.abc import Iterable, Iterator

from engines.inspection.standing import Decision, Kind, Requirement
from engines.vendors.models import OutsideWork
from engines.visits.models import Tagged


def out_at(orders: Iterable[OutsideWork], tagged: Tagged | None) -> OutsideWork | None:
    """The order with which a tagged part is out now."""
    if tagged is None or tagged.item_id is None:
        return None
    return next((each for each in orders if each.is_out and each.item_id == tagged.item_id), None)


def read_anew(orders: Iterable[OutsideWork], requirements: Iterable[Requirement]) -> Iterator[Decision]:
    """A rework for each row that an order names, at each of its places on that part, since the part left the shop.

    Once it is back nothing that was read until then counts, whatever the clock of the tablet said.
    """
    every = list(requirements)
    for order in orders:
        if not hasattr(order, "sent"):
            continue
        since = order.back.back_at if order.is_back else order.sent.sent_at
        for each in every:
            if each.row in order.read_again and (each.line, each.at) == (order.line, order.place):
                yield Decision(
                    reading=None,
                    kind=Kind.REWORK,
                    made_at=since,
                    row=each.row,
                    place=each.place,
                    line=each.line,
                    at=each.at,
                    item=order.item_id,
                )
