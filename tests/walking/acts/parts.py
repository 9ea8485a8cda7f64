"""The storekeeper scraps a part that lies in a tray, or would."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engines.parts.models import Item
from engines.parts.services import scrap_item
from shopfloor.people.permissions import Permission
from tests.walking.attempt import Attempt
from tests.walking.dice import slip

if TYPE_CHECKING:
    from tests.walking.walk import Walk


def scrap(walk: Walk) -> Attempt | None:
    item = walk.rng.one_of(list(Item.objects.filter(tagged__visit=walk.visit).order_by("serial")))
    if item is None:
        return None
    reason = "" if slip(walk.rng) else "fell off the bench"
    return Attempt(
        f"scraps {item.serial}",
        Permission.KEEP_PARTS,
        ("parts:scrap", item.pk),
        lambda by, at: scrap_item(item=item, reason=reason, by=by, at=at),
    )
