"""Acts on a visit. Everything about an engine goes on its own chain of the ledger."""

from engines.visits.services.closing import close_visit
from engines.visits.services.exchanging import exchange_parts
from engines.visits.services.impact import list_impact, settle_impact
from engines.visits.services.moving import move_area, move_to_bench
from engines.visits.services.reasons import add_reason
from engines.visits.services.receiving import receive_engine
from engines.visits.services.showing import add_photo
from engines.visits.services.tagging import Found, Identity, tag_part, tag_parts, tag_replacement

__all__ = [
    "Found",
    "Identity",
    "add_photo",
    "add_reason",
    "close_visit",
    "exchange_parts",
    "list_impact",
    "move_area",
    "move_to_bench",
    "receive_engine",
    "settle_impact",
    "tag_part",
    "tag_parts",
    "tag_replacement",
]
