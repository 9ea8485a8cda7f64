"""Whether parts are in the shop. Rooms above that know of parts elsewhere add a callable when they are made ready."""

from collections.abc import Callable, Iterable

from engines.parts.errors import NotAtHand
from engines.parts.models import Item

# Each answers in a sentence where the first of these items is that is elsewhere, blank where all are here.
elsewhere: list[Callable[[Iterable[Item]], str]] = []


def check_at_hand(*items: Item) -> None:
    """Asked while the rows of the items are locked, or are known to nobody else yet. Raises NotAtHand."""
    for where in elsewhere if items else ():
        if found := where(items):
            raise NotAtHand(found)
