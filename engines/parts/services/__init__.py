"""Acts on parts. What happens in an engine stands on its chain, what lies in stores on `stores`, and both where both are met."""

from engines.parts.services.evidence import book_evidence
from engines.parts.services.fitting import fit_item, put_in_place, remove_item, take_off, write_removals
from engines.parts.services.items import add_engine, add_item, scrap_item, take_piece, write_items

__all__ = [
    "add_engine",
    "add_item",
    "book_evidence",
    "fit_item",
    "put_in_place",
    "remove_item",
    "scrap_item",
    "take_off",
    "take_piece",
    "write_items",
    "write_removals",
]
