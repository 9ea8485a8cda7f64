"""Which entries of a crack test still count: those about the part that is there, as it is now, under a bath and lamp in order.

Where a check turns out wrong, nobody knows since when: every part examined since it was last right is examined anew.
"""

from engines.inspection.reworks import reworked_at
from engines.steps.crack_data import Details, good_for
from engines.steps.spots import as_value
from engines.steps.work import Content, Spot, Work

TECHNIQUE, BATH, CHECK, LOOK, INDICATION = ("technique", "bath", "check", "examined", "indication")
DEMAGNETISED, CLEANED = "demagnetised", "cleaned"
GOOD, WRONG = "as asked", "not as asked"


def of_part(work: Work, spot: Spot) -> list[Content]:
    """The entries at a part that count now, in their order."""
    since, mine = reworked_at(work.now, spot), list[tuple[int, Content]]()
    last_right: dict[tuple[str, str], int] = {}
    for number, (entry, moment) in enumerate(zip(work.entries, work.moments, strict=True)):
        check = (entry["act"], entry["what"])
        if entry["spot"]:
            counts = is_about(work, spot, entry) and (since is None or moment > since)
            mine += [(number, entry)] if counts else []
        elif entry["verdict"] == GOOD:
            last_right[check] = number
        else:
            mine = _examined_until(mine, last_right.get(check, -1))
    return [entry for _, entry in mine]


def is_doubted(work: Work, spot: Spot) -> bool:
    """Whether it was examined once, and that counts no more."""
    every = [entry for entry in work.entries if entry["spot"] == as_value(spot) and entry["act"] == LOOK]
    return len(every) > len([entry for entry in of_part(work, spot) if entry["act"] == LOOK])


def is_about(work: Work, spot: Spot, entry: Content) -> bool:
    """Whether an entry is about the part that is there now, wherever that was when it was tested."""
    item = item_at(work, spot)
    return bool(entry["item"] == item if item else entry["spot"] == as_value(spot))


def is_in_time(work: Work, act: str, what: str, asked: Details) -> bool:
    """Whether the newest check of that was right and still holds at the moment of the act."""
    both = [each for each in zip(work.entries, work.moments, strict=True) if not each[0]["spot"]]
    mine = [each for each in both if (each[0]["act"], each[0]["what"]) == (act, what)]
    if not mine or mine[-1][0]["verdict"] != GOOD:
        return False
    return work.at is None or work.at <= mine[-1][1] + good_for(asked)


def item_at(work: Work, spot: Spot) -> str:
    """The part that is there now; blank where the data or nobody told it apart."""
    tagged = work.now.tagged.get(spot)
    return str(tagged.item_id) if tagged and tagged.item_id else ""


def _examined_until(mine: list[tuple[int, Content]], last_right: int) -> list[tuple[int, Content]]:
    """Without what was examined after that entry, and all that followed from it."""
    doubted = next((place for place, (number, entry) in enumerate(mine) if entry["act"] == LOOK and number > last_right), None)
    return mine if doubted is None else mine[:doubted]
