"""Whether a part is in the shop. Rooms above that know of parts elsewhere add a callable when they are made ready."""

from collections.abc import Callable

from engines.parts.errors import NotAtHand
from engines.parts.models import Item

# Each answers where the item is in a sentence, blank where it knows of nothing; asked while the item's row is locked.
elsewhere: list[Callable[[Item], str]] = []


def check_at_hand(item: Item) -> None:
    """Raises NotAtHand."""
    for where in elsewhere:
        if found := where(item):
            raise NotAtHand(found)
