"""What the ledger keeps of items, fitments and evidence."""

from engines.parts.models import Certificate, Engine, Fitment, Item
from shopfloor.ledger.append_only import protect
from shopfloor.ledger.kinds import register_kind
from shopfloor.ledger.plain import fields, worded
from shopfloor.ledger.records import register_record

ITEM = ("part_number", "name", "serial", "mark", "tracking", "quantity", "lot", "customer", "origin", "known_at", "added_by")
SCRAPPED = ("scrapped_at", "scrapped_by")
FITTED = ("item", "root", "line", "place", "fitted_at", "fitted_known_at", "fitted_by")


def register() -> None:
    register_record(Item, content=fields(*ITEM, *SCRAPPED), private=("scrapped_reason",))
    register_record(Engine, content=fields("item", "model", "customer"))
    register_record(Fitment, content=fields(*FITTED, "removed_at", "removed_known_at", "removed_by"), private=("removed_reason",))
    evidence = fields("item", "kind", "number", "issued_on", "file", "booked_by", "booked_at")
    register_record(Certificate, content=evidence, private=("issued_by",))
    protect(Item, closes=("scrapped_at", "scrapped_by", "scrapped_reason"))
    protect(Engine)
    protect(Fitment, closes=("removed_at", "removed_known_at", "removed_by", "removed_reason"))
    protect(Certificate)
    register_kind("item.added", sentence=worded("{name}, part number {part_number}, was put on record."))
    register_kind("item.scrapped", sentence=worded("{name}, part number {part_number}, was scrapped."))
    register_kind("engine.added", sentence=lambda event: "An engine was put on record.")
    register_kind("item.fitted", sentence=worded("An item was fitted as {line} at {place}."))
    register_kind("item.removed", sentence=worded("An item was removed from {line} at {place}."))
    register_kind("evidence.booked", sentence=worded("Evidence of eligibility was booked: {kind} {number}."))
