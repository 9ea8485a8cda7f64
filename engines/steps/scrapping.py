"""How far each part is that may not be used again: made unusable, seen by another person, its place taken by a new one."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from engines.parts.models import Item
from engines.steps.spots import from_value
from engines.steps.work import Content, Spot, Work
from engines.visits.queries import tags

SCRAP, WITNESS, NEW = "make unusable", "witness", "new part"
UNUSABLE, USABLE = "unusable: nobody can fit it again", "it could still be fitted"


@dataclass(frozen=True)
class Old:
    """The part that came with the engine at a spot. `act` is what follows, blank when all is done; `hand` made it unusable."""

    spot: Spot
    item: Item
    act: str = SCRAP
    hand: int | None = None
    is_disputed: bool = False


class Asked(NamedTuple):
    text: str
    old: Old


def olds_of(work: Work) -> list[Old]:
    """Of each position that was tagged, the last part there that came with the engine. One that was not there has nothing to
    be scrapped, and a new one is never taken for it. Two queries.
    """
    came = {(tag.line, tag.place): tag.item for tag in tags(work.visit) if tag.item_id in work.now.taken_off}
    return [_as_it_stands(work, Old(spot, item)) for spot in work.spots if (item := came.get(spot))]


def asked_of(work: Work, olds: list[Old]) -> Asked | None:
    """What the person at the tablet is asked: what they may see as the second one, then what is left to do."""
    able = [each for each in olds if each.act and not (each.act == WITNESS and each.hand == work.by)]
    able.sort(key=lambda each: each.act != WITNESS)
    return Asked(f"{able[0].act}: {work.words(able[0].spot)}", able[0]) if able else None


def _as_it_stands(work: Work, old: Old) -> Old:
    for entry, hand in _entries_at(work, old.spot):
        if entry["act"] == SCRAP:
            old = Old(old.spot, old.item, WITNESS, hand)
        elif entry["act"] == WITNESS:
            is_seen = entry["answer"] == UNUSABLE
            old = Old(old.spot, old.item, NEW if is_seen else SCRAP, old.hand, is_disputed=not is_seen)
        else:
            old = Old(old.spot, old.item, "", old.hand)
    return old


def _entries_at(work: Work, spot: Spot) -> Iterator[tuple[Content, int]]:
    every = zip(work.entries, work.hands, strict=True)
    return ((entry, hand) for entry, hand in every if from_value(entry["spot"]) == spot)
