"""What the ledger keeps of engine models, packs and checked pages."""

import hashlib
from collections.abc import Callable

from engines.catalogue.models import EngineModel, Pack, PageCheck
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.canonical import moment
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.records import register_record


def register() -> None:
    register_record(EngineModel, content=_model)
    register_record(Pack, content=_pack)
    register_record(PageCheck, content=_page_check)
    protect(EngineModel)
    protect(PageCheck)
    register_kind("model.added", sentence=lambda event: f"Engine model {event.body['content']['code']} was added.")
    register_kind("pack.loaded", sentence=_says("was loaded as a draft"))
    register_kind("pack.approved", sentence=_says("was approved"))
    register_kind("pack.superseded", sentence=_says("gave way to a newer revision"))
    register_kind("page.checked", sentence=_checked)


def _model(model: EngineModel) -> dict[str, object]:
    return {"code": model.code, "name": model.name, "maker": model.maker, "added_at": moment(model.added_at)}


def _pack(pack: Pack) -> dict[str, object]:
    return {
        "model": str(pack.model_id),
        "revision": pack.revision,
        "state": str(pack.state),
        "label": pack.label,
        "content_sha256": hashlib.sha256(pack.content.encode()).hexdigest(),
        "limit_table": str(pack.limit_table_id),
        "loaded_by": str(pack.loaded_by_id),
        "loaded_at": moment(pack.loaded_at),
        "approved_by": str(pack.approved_by_id) if pack.approved_by_id else None,
        "approved_at": moment(pack.approved_at) if pack.approved_at else None,
    }


def _page_check(check: PageCheck) -> dict[str, object]:
    return {
        "pack": str(check.pack_id),
        "document": check.document,
        "document_revision": check.document_revision,
        "page": check.page,
        "checked_by": str(check.checked_by_id),
        "checked_at": moment(check.checked_at),
    }


def _says(words: str) -> Callable[[LedgerEvent], str]:
    return lambda event: f"Engine data, revision {event.body['content']['revision']}, {words}."


def _checked(event: LedgerEvent) -> str:
    content = event.body["content"]
    page = f"{content['document']}, revision {content['document_revision']}, {content['page']}"
    return f"What the engine data says of {page} was held against that page."
