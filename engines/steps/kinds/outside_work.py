"""A part goes to an approved vendor for what the data ask, comes back with its evidence, and an inspector looks at it.

The order is made here and the look taken here; between them the part is sent and booked back in on the page of its order. What
came back damaged or wrong goes before the inspector: accepted or conceded it stays, reworked it goes out again, replaced the
part that takes its place is asked about anew.
"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from engines.catalogue.data import Operation, PackData
from engines.inspection.hooks import tell_after_work
from engines.parts.models import Item
from engines.steps.asking import Question, check_asked
from engines.steps.noticing import raise_at
from engines.steps.outside import LOOK, ORDER, STAYS, Standing, standings
from engines.steps.outside_details import wrong_details
from engines.steps.outside_forms import look_question, order_question
from engines.steps.photographs import keep_photo
from engines.steps.spots import as_value
from engines.steps.work import PARTS, Content, Spot, Step, StepRefused, Work
from engines.vendors.models import OutsideWork, Seen
from engines.vendors.queries import vendors
from engines.vendors.services import Asked, From, look, place_order
from shopfloor.people.models import Person


class OutsideWorkStep(Step):
    name = "outside-work"
    words = "outside work"
    caution = "Plug, wrap and crate it so that it comes back as it went, and let nobody set on without the order in writing."
    names_what = PARTS
    needs_names = can_find = has_own_paper = follows_parts_out = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        return wrong_details(self.name, operation, data)

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        asked = _asked(work)
        if asked is None:
            return None
        return order_question(work, asked, data) if asked.act == ORDER else look_question(work, asked, data, files)

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        asked = _asked(work)
        check_asked(asked.question if asked else None, given)
        assert asked is not None
        act = _looked_at if asked.act == LOOK else _stays if given["answer"] == STAYS else _ordered
        about = {"spot": as_value(asked.spot), "position": work.words(asked.spot)}
        return {**about, **act(work, asked, given, by, at)}

    def missing(self, work: Work) -> list[str]:
        return [f"{work.words(each.spot)}: {each.why}." for each in standings(work) if not each.done]

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("verdict") == Seen.WRONG

    def shown(self, work: Work) -> Content:
        return {"entries": list(work.entries), "orders": [_plain(each) for each in _orders(work)]}

    def lines(self, work: Work) -> Content:
        return {
            "asked": work.operation.details,
            "stands": [(work.words(each.spot), each) for each in standings(work)],
            "orders": _orders(work),
            "entries": work.entries,
        }


def _asked(work: Work) -> Standing | None:
    return next((each for each in standings(work) if each.act), None)


def _orders(work: Work) -> list[OutsideWork]:
    """Every order of this operation, whichever round it was made in."""
    return [each for each in work.now.outside if each.operation == work.operation.code]


def _ordered(work: Work, asked: Standing, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
    item, vendor = _item(work, asked.spot), vendors().filter(pk=given["answer"]).first()
    if vendor is None:
        raise StepRefused("Choose a vendor from the list.")
    if not given.get("due_on"):
        raise StepRefused("Say on which day it is due back, so that a part that is late is seen.")
    line, place = asked.spot
    origin = From(work.visit.engine.item, work.line(asked.spot).area, line, place, work.operation.code)
    order = place_order(
        vendor=vendor, item=item, origin=origin, asked=_what(work.operation), due_on=given["due_on"], by=by, at=at
    )
    number = {"act": ORDER, "order": str(order.number)}
    return {**number, "item": str(item), "vendor": vendor.name, "due": order.due_on.isoformat(), "key": str(item.pk)}


def _stays(work: Work, asked: Standing, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
    item, reason = _item(work, asked.spot), str(given.get("reason", "")).strip()
    if not asked.may_stay:
        raise StepRefused("The data do not let it stay here: choose a vendor.")
    if not reason:
        raise StepRefused(f"Say what shows that it may stay here: {asked.may_stay}")
    return {"act": STAYS, "item": str(item), "reason": reason, "key": str(item.pk)}


def _looked_at(work: Work, asked: Standing, given: Mapping[str, Any], by: Person, at: datetime) -> Content:
    assert asked.order is not None
    words = str(given.get("words", "")).strip()
    seen = look(order=asked.order, verdict=str(given["answer"]), words=words, by=by, at=at)
    if seen.verdict == Seen.WRONG:
        told = f"back from {asked.order.vendor.name} {seen.verdict} (order {asked.order.number}): {words}"
        raise_at(work, asked.spot, f"{work.words(asked.spot)}: {told}", by=by, at=at)
    photo = keep_photo(given.get("photo"), at)
    tell_after_work(work.visit, by, at)
    return {"act": LOOK, "order": str(asked.order.number), "verdict": str(seen.verdict), "words": words, "photo": photo}


def _what(operation: Operation) -> Asked:
    details = operation.details
    return Asked(
        work=details["work"],
        part=details["part"],
        words=details["asked"],
        source=str(operation.source)[:240],
        evidence=tuple(details["evidence"]),
        read_again=tuple(details.get("read_again", ())),
    )


def _item(work: Work, spot: Spot) -> Item:
    tagged = work.now.tagged.get(spot)
    if tagged is None or tagged.item is None:
        raise StepRefused(f"No part has an identity for {work.words(spot)}. Strip and tag it before it goes out.")
    return tagged.item


def _plain(order: OutsideWork) -> Content:
    """All of an order that a signer sees."""
    back = order.back if order.is_back else None
    certificate = back.certificate if back else None
    return {
        "order": str(order.number),
        "vendor": order.vendor.name,
        "approval": order.approval.reference,
        "item": str(order.item),
        "position": order.position,
        "standing": order.standing,
        "sent": order.sent.words if hasattr(order, "sent") else "",
        "certificate": f"{certificate.number} of {certificate.issued_on}" if certificate else "",
        "did": back.did if back else "",
        "papers": list(back.papers) if back else [],
        "without": back.without if back else "",
    }
