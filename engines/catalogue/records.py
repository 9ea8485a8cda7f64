"""What the ledger keeps of engine models, packs and checked pages. A pack's content stands by its hash: it is kept beside it."""

import hashlib

from engines.catalogue.models import EngineModel, Pack, PageCheck, RouteDraft, RouteText
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.plain import Plain, fields, worded
from shopfloor.ledger.records import register_record

SENTENCES = {
    "model.added": "Engine model {code} was added.",
    "pack.loaded": "Engine data, revision {revision}, was loaded as a draft.",
    "pack.approved": "Engine data, revision {revision}, was approved.",
    "pack.superseded": "Engine data, revision {revision}, gave way to a newer revision.",
    "route.opened": "A draft of a route was opened, for data revision {revision}.",
    "route.saved": "Version {version} of the draft of a route was saved.",
    "route.sent": "The draft of a route was sent in as engine data of revision {revision}, which waits for its approval.",
    "page.checked": "What the engine data says of {document}, revision {document_revision}, {page} was held against that page.",
}
LOADED = fields("model", "revision", "state", "label", "limit_table", "loaded_by", "loaded_at", "approved_by", "approved_at")
SAVED = fields("draft", "version", "saved_by", "saved_at")


def register() -> None:
    register_record(EngineModel, content=fields("code", "name", "maker", "added_at"))
    register_record(Pack, content=_pack)
    register_record(PageCheck, content=fields("pack", "document", "document_revision", "page", "checked_by", "checked_at"))
    sent = fields("pack", "revision", "opened_by", "opened_at", "sent_as", "sent_by", "sent_at")
    register_record(RouteDraft, content=sent)
    register_record(RouteText, content=_text)
    protect(RouteDraft, closes=("sent_as", "sent_by", "sent_at"))
    protect(RouteText)
    protect(EngineModel)
    protect(PageCheck)
    for kind, words in SENTENCES.items():
        register_kind(kind, sentence=worded(words))


def _pack(pack: Pack) -> dict[str, Plain]:
    return {**LOADED(pack), "content_sha256": hashlib.sha256(pack.content.encode()).hexdigest()}


def _text(text: RouteText) -> dict[str, Plain]:
    return {**SAVED(text), "text_sha256": hashlib.sha256(text.text.encode()).hexdigest()}
