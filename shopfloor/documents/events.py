"""The sentence that a reader of the ledger sees for each kind of event of this room."""

from django.urls import reverse

from shopfloor.documents.kinds import title_of
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent


def register() -> None:
    register_kind("document.requested", sentence=lambda event: f"{_paper(event)} was asked for.", link=_page)
    register_kind("document.retried", sentence=_retried, link=_page)
    register_kind("document.rendered", sentence=_rendered, link=_page)


def _paper(event: LedgerEvent) -> str:
    content = event.body["content"]
    return f"The paper '{title_of(content['kind'])}' about {content['subject']}"


def _retried(event: LedgerEvent) -> str:
    return f"{_paper(event)} was asked for again, after it had failed: {event.body['facts']['after']}"


def _rendered(event: LedgerEvent) -> str:
    return f"{_paper(event)} was made; SHA-256 {event.body['content']['sha256']}."


def _page(event: LedgerEvent) -> str:
    return reverse("documents:document", args=[event.body["about"][1]])
