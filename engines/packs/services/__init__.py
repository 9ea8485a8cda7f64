"""Acts on engine data: loading it, putting it into force, and writing the next revision of a route."""

from engines.packs.services.drafting import (
    move_operation,
    open_draft,
    put_operation,
    remove_operation,
    save_route,
    send_in,
)
from engines.packs.services.loading import approve, load_pack

__all__ = [
    "approve",
    "load_pack",
    "move_operation",
    "open_draft",
    "put_operation",
    "remove_operation",
    "save_route",
    "send_in",
]
