"""Where the events of the rooms below lead: to the pages here."""

from collections.abc import Callable

from django.urls import reverse

from shopfloor.ledger.kinds import lead_to
from shopfloor.ledger.models import LedgerEvent

Link = Callable[[LedgerEvent], str | None]


def _of(page: str) -> Link:
    return lambda event: reverse(page, args=[event.body["about"][1]])


def _by(page: str, field: str) -> Link:
    return lambda event: reverse(page, args=[event.body["content"][field]])


LINKS: dict[str, Link] = {
    **dict.fromkeys(("visit.received", "visit.reason-added", "visit.operation-added"), _of("benches:visit")),
    **dict.fromkeys(
        (
            "visit.noted",
            "visit.photographed",
            "tray.hung",
            "tray.emptied",
            "part.tagged",
            "impact.listed",
            "impact.settled",
            "engine.read",
        ),
        _by("benches:visit", "visit"),
    ),
    **dict.fromkeys(("area.opened", "area.moved", "area.benched"), _of("benches:area")),
    "stage.moved": _by("benches:area", "area"),
    **dict.fromkeys(
        ("operation.planned", "operation.signed", "operation.accepted", "operation.reopened"), _of("benches:operation")
    ),
    **dict.fromkeys(("entry.made", "signature.given", "reopening.noted"), _by("benches:operation", "operation")),
    **dict.fromkeys(("addition.asked", "addition.decided"), _of("benches:addition")),
    **dict.fromkeys(("route.opened", "route.sent"), _of("packs:draft")),
    "route.saved": _by("packs:draft", "draft"),
    "discrepancy.raised": _of("benches:discrepancy"),
    **dict.fromkeys(("disposition.made", "disposition.seconded"), _by("benches:discrepancy", "discrepancy")),
    "visit.closed": _of("benches:visit"),
    **dict.fromkeys(("release.signed", "release.amended"), _of("benches:released")),
    **dict.fromkeys(("notice.made", "notice.seen"), _by("benches:released", "release")),
    **dict.fromkeys(("serious-defect.marked", "serious-defect.reported"), _by("benches:discrepancy", "discrepancy")),
    **dict.fromkeys(("authorisation.granted", "authorisation.ended"), lambda event: reverse("benches:roster")),
    "request.made": _of("benches:request"),
    **dict.fromkeys(("request.answered", "request.withdrawn"), _by("benches:request", "request")),
    **dict.fromkeys(("item.added", "item.scrapped"), _of("benches:trace")),
    **dict.fromkeys(("item.fitted", "item.removed", "evidence.booked"), _by("benches:trace", "item")),
}


def register() -> None:
    for kind, link in LINKS.items():
        lead_to(kind, link)
