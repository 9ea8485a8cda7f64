"""Carrying out a post once, however often it arrives."""

from collections.abc import Callable
from datetime import datetime
from uuid import UUID, uuid4

from django.db import transaction
from django.http import HttpResponse

from shopfloor.people.models import Person
from shopfloor.receipts.models import Receipt


class KeyReused(Exception):
    """The key stands for another post."""

    def __init__(self) -> None:
        super().__init__(
            "This form was already sent with other content, or by someone else. Open the page again and enter it anew."
        )


class Refused(Exception):
    """The act answered with a refusal, so neither it nor its receipt is kept."""

    def __init__(self, response: HttpResponse) -> None:
        super().__init__(response.status_code)
        self.response = response


def once(
    *, key: UUID, route: str, content_sha256: str, act: Callable[[], HttpResponse], by: Person, at: datetime
) -> HttpResponse:
    """The answer of `act`, carried out by the first arrival only. Raises KeyReused."""
    try:
        with transaction.atomic():
            receipt, first = claim(key=key, route=route, content_sha256=content_sha256, by=by, at=at)
            if first:
                return keep(receipt, act())
    except Refused as refusal:
        return refusal.response
    if (receipt.person_id, receipt.route, receipt.content_sha256) != (by.pk, route, content_sha256):
        raise KeyReused
    return replay(receipt)


def claim(*, key: UUID, route: str, content_sha256: str, by: Person, at: datetime) -> tuple[Receipt, bool]:
    """The receipt of this key, and whether this call made it.

    The insert waits for a rival's transaction to end and then yields to it; so of equal posts at the same moment
    exactly one finds its own claim in the row.
    """
    mine = Receipt(key=key, claim=uuid4(), person=by, route=route, content_sha256=content_sha256, at=at)
    Receipt.objects.bulk_create([mine], ignore_conflicts=True)
    kept = Receipt.objects.get(pk=key)
    return kept, kept.claim == mine.claim


def keep(receipt: Receipt, response: HttpResponse) -> HttpResponse:
    if response.status_code >= 400:
        raise Refused(response)
    if hasattr(response, "render"):
        response.render()
    receipt.status = response.status_code
    receipt.location = response.headers.get("Location", "")
    receipt.media_type = response.headers.get("Content-Type", "")
    receipt.answer = response.content
    receipt.save(update_fields=["status", "location", "media_type", "answer"])
    return response


def replay(receipt: Receipt) -> HttpResponse:
    response = HttpResponse(bytes(receipt.answer), status=receipt.status, content_type=receipt.media_type)
    if receipt.location:
        response.headers["Location"] = receipt.location
    return response
