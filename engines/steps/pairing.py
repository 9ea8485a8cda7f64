"""Two mates at a place: what the data permit together, what was said of each, and whether that still holds."""

from dataclasses import dataclass
from typing import NamedTuple

from engines.catalogue.data import CITED, Operation, PackData, Source
from engines.inspection.standing import Kind
from engines.parts.models import Item
from engines.steps.deciding import is_let_pass
from engines.steps.work import Content, Spot, Work

STANDARD = "standard"
FIRST, SECOND, AGAIN = "first", "second", "again"
PERMITTED, NOT_PERMITTED = "permitted", "not permitted"


@dataclass(frozen=True)
class Mate:
    """`row` is the characteristic whose last reading says its size class, `line` its line of the parts list; blank: not known."""

    name: str
    told_by: str
    row: str = ""
    line: str = ""


@dataclass(frozen=True)
class Permitted:
    first: str
    second: str
    source: Source


class Next(NamedTuple):
    """What is asked now: a mate at a place; `first` is what was said of the other one, None while nothing was."""

    place: str
    mate: Mate
    first: Content | None


def mates_of(operation: Operation) -> list[Mate]:
    given = operation.details.get("mates", ())
    return [Mate(each["mate"], each["told_by"], each.get("row", ""), each.get("line", "")) for each in given]


def permitted_by(operation: Operation, data: PackData) -> list[Permitted]:
    """The table of the operation; or the pairings of the fit that it names, whose first mate is the outer one."""
    if fit := operation.details.get("fit"):
        mine = (each for each in data.pairings if each.fit == fit)
        return [Permitted(each.outer_class or STANDARD, each.inner_class or STANDARD, each.source) for each in mine]
    rows = operation.details.get("permitted", ())
    return [Permitted(row["first"], row["second"], Source(**{name: row[name] for name in CITED})) for row in rows]


class Pairs:
    """Every place of the operation as it stands now."""

    def __init__(self, work: Work) -> None:
        self.work = work
        self.mates = mates_of(work.operation)
        self.table = permitted_by(work.operation, work.data)
        self.places: list[str] = list(work.operation.details.get("places", ()))

    @property
    def next(self) -> Next | None:
        """Places of which nothing was said come before those whose parts have to be changed."""
        left = [place for place in self.places if not self.is_done(place)]
        if not left:
            return None
        place = min(left, key=lambda each: self.said_at(each)[1] is not None)
        first, second = self.said_at(place)
        if first is None or second is not None or self.why_void(place):
            return Next(place, self.mates[0], None)
        return Next(place, self.mates[1], first)

    def said_at(self, place: str) -> tuple[Content | None, Content | None]:
        """The last word about each mate; a new word about the first begins the place anew."""
        first = second = None
        for entry in (each for each in self.work.entries if each["place"] == place):
            begun = entry if entry["act"] == FIRST else None
            first, second = (first, entry) if entry["act"] == SECOND else (begun, None)
        return first, second

    def is_done(self, place: str) -> bool:
        second = self.said_at(place)[1]
        return second is not None and not self.why_void(place) and (second["verdict"] == PERMITTED or self.is_conceded(second))

    def is_conceded(self, second: Content) -> bool:
        """Only a concession lets stand what the table does not permit."""
        both = zip(self.work.entries, self.work.moments, strict=True)
        moments = [moment for entry, moment in both if entry is second]
        return is_let_pass(self.work, second["place"], moments, by=(Kind.CONCESSION,))

    def why_void(self, place: str) -> str:
        """Why what was said there holds no longer; blank while it does."""
        for mate, entry in zip(self.mates, self.said_at(place), strict=True):
            if entry and entry["item"] != self.item_key(mate, place):
                return f"another {mate.name} is there now than {entry['part'] or 'before'}"
            if entry and mate.row and self.class_read(mate, place) != entry["is"]:
                return f"{mate.name} was said to be {entry['is']}, and is read as {self.class_read(mate, place) or 'nothing now'}"
        return ""

    def class_read(self, mate: Mate, place: str) -> str | None:
        """The size class under which the last reading that counts was taken; None where there is none."""
        requirement = self.work.now.rows.by_key.get((mate.row, place))
        reading = self.work.now.reading_of(self.work.now.of(requirement)) if requirement else None
        return None if reading is None or reading.row is None else reading.row.size_class or STANDARD

    def spot(self, mate: Mate, place: str) -> Spot | None:
        """Where the part sits that the mate is or is a surface of; None where the data do not name it."""
        name = self.work.now.rows.any(mate.row).part if mate.row and self.work.now.rows.has(mate.row) else mate.line
        if not name:
            return None
        places = self.work.data.line_by_code[name].places
        return name, place if place in places else places[0]

    def item(self, mate: Mate, place: str) -> Item | None:
        """The part that is fitted there, or tagged to be."""
        spot = self.spot(mate, place)
        if spot is None:
            return None
        if fitment := self.work.now.fitted.get(spot):
            return fitment.item
        tagged = self.work.now.tagged.get(spot)
        return tagged.item if tagged else None

    def item_key(self, mate: Mate, place: str) -> str:
        item = self.item(mate, place)
        return str(item.pk) if item else ""
