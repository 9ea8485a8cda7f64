"""How each required characteristic stands, from what was read and decided. Pure: values in, standings out.

The last valid reading counts: not corrected, on the part that is there now, not made history by a rework, and for a fit
made of the last valid readings of both mates. A decision about a reading holds for that reading only, and only while nothing
newer was read of the same part. A surface worn beyond new whose limit is on the fit is as good as its worst fit.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from uuid import UUID

from measurements.metrology.verdicts import GOOD, Verdict

Spot = tuple[str, str]


class Kind(StrEnum):
    """What may be decided about a discrepancy."""

    ACCEPT = "accept within limits"
    REWORK = "rework"
    REPLACE = "replace"
    SCRAP = "scrap"
    EXCHANGE = "exchange"
    CONCESSION = "concession"


NEW_PART = frozenset({Kind.REPLACE, Kind.SCRAP, Kind.EXCHANGE})
WORK = NEW_PART | {Kind.REWORK}


class State(StrEnum):
    MISSING = "not read yet"
    GOOD = "good"
    SETTLED = "settled by a decision"
    PENDING = "decided, still to be carried out"
    UNDECIDED = "not decided"


DECIDED = frozenset({State.GOOD, State.SETTLED, State.PENDING})
DONE = frozenset({State.GOOD, State.SETTLED})
WORST_LAST = (State.GOOD, State.SETTLED, State.PENDING, State.MISSING, State.UNDECIDED)


@dataclass(frozen=True)
class Requirement:
    """A characteristic that must be decided at a place.

    `line` and `at` name the part and where that sits; `mates` are the rows of a fit; `base` is the row whose points a derived
    one is made of.
    """

    row: str
    place: str
    area: str
    line: str
    at: str
    mates: tuple[str, str] | None = None
    base: str = ""
    condition: str = "as received"
    required: bool = True

    @property
    def key(self) -> Spot:
        return self.row, self.place


@dataclass(frozen=True)
class Read:
    """One kept reading: worn beyond new where the limit is on the fit, it is `on_fit`.

    `mates` are the readings that a fit was computed from, `source` the one a derived value came from.
    """

    id: UUID
    row: str
    place: str
    item: UUID | None
    verdict: str
    at: datetime
    order: int
    on_fit: bool = False
    corrected: bool = False
    mates: tuple[UUID, UUID] | None = None
    source: UUID | None = None


@dataclass(frozen=True)
class Decision:
    """A disposition: `reading` is what it is about, `row` at `place` what a rework makes history, `line` at `at` the part.

    `item` is the part that it was made about, where one was known. A concession is `complete` with its second signature;
    every other kind at once.
    """

    reading: UUID | None
    kind: str
    made_at: datetime
    row: str
    place: str
    line: str
    at: str
    complete: bool = True
    item: UUID | None = None


@dataclass(frozen=True)
class Standing:
    requirement: Requirement
    state: State
    read: Read | None


@dataclass(frozen=True)
class Facts:
    """All that counts for one visit. `items` names the part that is at (line, place) now; None is a part that is not there."""

    reads: Sequence[Read]
    decisions: Sequence[Decision]
    items: Mapping[Spot, UUID | None]


def standings(requirements: Iterable[Requirement], facts: Facts) -> list[Standing]:
    """One standing for each requirement, in the order given."""
    every = list(requirements)
    found = Standings(every, facts)
    return [found.of(requirement) for requirement in every]


class Standings:
    """The requirements of one visit against its facts; the last valid reading of each is found once."""

    def __init__(self, requirements: Sequence[Requirement], facts: Facts) -> None:
        self._items = facts.items
        self._decisions = [decision for decision in facts.decisions if decision.complete]
        self._requirements = {requirement.key: requirement for requirement in requirements}
        self._reads: dict[Spot, list[Read]] = {}
        self._by_id = {read.id: read for read in facts.reads}
        for read in facts.reads:
            self._reads.setdefault((read.row, read.place), []).append(read)
        self._last: dict[Spot, Read | None] = {}

    def of(self, requirement: Requirement) -> Standing:
        read = self.last(requirement)
        if read is None:
            return Standing(requirement, State.PENDING if self._is_expected(requirement) else State.MISSING, None)
        if read.verdict in GOOD:
            return Standing(requirement, State.GOOD, read)
        about = [decision for decision in self._decisions if decision.reading == read.id]
        if not about and read.on_fit:
            return Standing(requirement, self._as_good_as_its_fits(requirement), read)
        return Standing(requirement, _decided(max(about, key=lambda each: each.made_at, default=None), read), read)

    def _as_good_as_its_fits(self, mate: Requirement) -> State:
        here = (each for each in self._requirements.values() if each.mates and each.place == mate.place)
        fits = (each for each in here if mate.row in (each.mates or ()))
        return max((self.of(fit).state for fit in fits), key=WORST_LAST.index, default=State.UNDECIDED)

    def last(self, requirement: Requirement) -> Read | None:
        """The last valid reading."""
        if requirement.key not in self._last:
            able = [read for read in self._reads.get(requirement.key, ()) if self._counts(read, requirement)]
            self._last[requirement.key] = max(able, key=lambda read: (read.at, read.order), default=None)
        return self._last[requirement.key]

    def _counts(self, read: Read, requirement: Requirement) -> bool:
        if requirement.mates:
            return not read.corrected and read.mates == self._mates_now(requirement)
        if requirement.base:
            base = self._last_at(requirement.base, requirement.place)
            return not read.corrected and base is not None and read.source == base.id
        return not read.corrected and self._is_on_the_part(read, requirement) and not self._is_history(read)

    def _is_on_the_part(self, read: Read, requirement: Requirement) -> bool:
        item = self._items.get((requirement.line, requirement.at))
        return item is not None and read.item == item

    def _is_history(self, read: Read) -> bool:
        here = (each for each in self._decisions if (each.row, each.place) == (read.row, read.place))
        mine = (each for each in here if each.kind == Kind.REWORK and each.item in (None, read.item))
        return any(read.at <= each.made_at for each in mine)

    def _mates_now(self, fit: Requirement) -> tuple[UUID, UUID] | None:
        outer, inner = (self._last_at(row, fit.place) for row in fit.mates or ("", ""))
        return (outer.id, inner.id) if outer and inner else None

    def _last_at(self, row: str, place: str) -> Read | None:
        requirement = self._requirements.get((row, place))
        return self.last(requirement) if requirement else None

    def is_latest(self, reading: UUID) -> bool:
        """Whether nothing newer was read of the same part, and it was not corrected: decisions about it still hold."""
        read = self._by_id[reading]
        of_it = [
            each for each in self._reads[read.row, read.place] if not each.corrected and self._parts(each) == self._parts(read)
        ]
        return not read.corrected and read == max(of_it, key=lambda each: (each.at, each.order))

    def is_there(self, reading: UUID) -> bool:
        """Whether the part that it was taken of, of a fit both, is the one that is there now."""
        read = self._by_id[reading]
        parts = [self._requirements.get((each.row, each.place)) for each in self._read_of(read)]
        return self._parts(read) == tuple(self._items.get((part.line, part.at)) if part else None for part in parts)

    def _parts(self, read: Read) -> tuple[UUID | None, ...]:
        return tuple(each.item for each in self._read_of(read))

    def _read_of(self, read: Read) -> list[Read]:
        """The reading itself, or of a fit those of both mates."""
        return [self._by_id[mate] for mate in read.mates if mate in self._by_id] if read.mates else [read]

    def _is_expected(self, requirement: Requirement) -> bool:
        """Whether a decision is why nothing valid is there: the part is reworked, or a new one comes."""
        made_of = self._made_of(requirement)
        if made_of:
            return any(self.last(part) is None and self._is_expected(part) for part in made_of)
        return any(self._opens_again(decision, requirement) for decision in self._decisions)

    def _opens_again(self, decision: Decision, requirement: Requirement) -> bool:
        if decision.reading and decision.reading in self._by_id and not self.is_latest(decision.reading):
            return False
        part, since = self._part_of(decision), self._since(decision, requirement)
        if decision.kind == Kind.REWORK:
            gone = part is not None and part != self._items.get((requirement.line, requirement.at))
            return (decision.row, decision.place) == requirement.key and not gone and not since
        came = [read for read in since if read.item != part]
        return decision.kind in NEW_PART and (decision.line, decision.at) == (requirement.line, requirement.at) and not came

    def _since(self, decision: Decision, requirement: Requirement) -> list[Read]:
        return [read for read in self._reads.get(requirement.key, ()) if read.at > decision.made_at]

    def _part_of(self, decision: Decision) -> UUID | None:
        """The part that is reworked or gives way; of a fit, the mate that the decision names."""
        read = self._by_id.get(decision.reading) if decision.reading else None
        for each in self._read_of(read) if read else ():
            requirement = self._requirements.get((each.row, each.place))
            if requirement and (requirement.line, requirement.at) == (decision.line, decision.at):
                return each.item
        return decision.item

    def _made_of(self, requirement: Requirement) -> list[Requirement]:
        rows = requirement.mates or ((requirement.base,) if requirement.base else ())
        return [self._requirements[row, requirement.place] for row in rows if (row, requirement.place) in self._requirements]


def _decided(decision: Decision | None, read: Read) -> State:
    if decision is None:
        return State.UNDECIDED
    if decision.kind == Kind.CONCESSION:
        return State.SETTLED
    if decision.kind == Kind.ACCEPT:
        return State.UNDECIDED if read.verdict == Verdict.OUTSIDE else State.SETTLED
    return State.PENDING
