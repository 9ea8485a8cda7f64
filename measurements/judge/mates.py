"""What was last read at each position of the rows that a fit names: one compact entry per position and row."""

from array import array
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from measurements.judge.scales import Typed


class Mate(NamedTuple):
    """The last reading of a row at a position: whole numbers as typed, and how they were typed. `u` 0 is not stated."""

    typed: Typed
    least: int
    greatest: int
    u: int


class MateLists:
    """Mates in the order read, as a few flat lists: quick to hand from one process to another."""

    def __init__(self) -> None:
        self.rows: list[str] = []
        self.positions: list[str] = []
        self.typed: list[Typed] = []
        self.figures: list[int] = []

    def add(self, row: str, position: str, typed: Typed, least: int, greatest: int, u: int) -> None:
        self.rows.append(row)
        self.positions.append(position)
        self.typed.append(typed)
        self.figures += (least, greatest, u)

    def __iter__(self) -> Iterator[tuple[str, str, Typed, int, int, int]]:
        figures = iter(self.figures)
        return zip(self.rows, self.positions, self.typed, figures, figures, figures, strict=True)


class MateColumn:
    """The mates of one row, three machine integers and a kind each; figures too long for that are kept beside."""

    def __init__(self) -> None:
        self._kinds: list[Typed] = []
        self._number_of: dict[Typed, int] = {}
        self._kind = array("i")
        self._figures = array("q"), array("q"), array("q")
        self._long: dict[int, Mate] = {}

    def keep(self, place: int, typed: Typed, least: int, greatest: int, u: int) -> None:
        """The mate at the numbered place, in the stead of an earlier one."""
        if place >= len(self._kind):
            self._reach(place)
        leasts, greatests, uncertainties = self._figures
        self._kind[place] = self._number_of.get(typed) or self._new_kind(typed)
        try:
            leasts[place], greatests[place], uncertainties[place] = least, greatest, u
        except OverflowError:
            self._long[place] = Mate(typed, least, greatest, u)
        else:
            if self._long:
                self._long.pop(place, None)

    def at(self, place: int) -> Mate | None:
        """The mate at the numbered place, None where nothing was read."""
        if place >= len(self._kind) or not self._kind[place]:
            return None
        if place in self._long:
            return self._long[place]
        leasts, greatests, uncertainties = self._figures
        return Mate(self._kinds[self._kind[place] - 1], leasts[place], greatests[place], uncertainties[place])

    def _reach(self, place: int) -> None:
        missing = place + 1 - len(self._kind)
        for column in (self._kind, *self._figures):
            column.frombytes(bytes(missing * column.itemsize))

    def _new_kind(self, typed: Typed) -> int:
        self._kinds.append(typed)
        self._number_of[typed] = len(self._kinds)
        return len(self._kinds)


class Mates:
    """The mates of all named rows, positions numbered in order of first appearance."""

    def __init__(self, rows: Iterable[str]) -> None:
        self.columns = {row: MateColumn() for row in rows}
        self._places: dict[str, int] = {}

    def keep_all(self, mates: MateLists) -> None:
        """Remembers readings of named rows; the last one at a position counts."""
        places = self._places
        for row, position, typed, least, greatest, u in mates:
            self.columns[row].keep(places.setdefault(position, len(places)), typed, least, greatest, u)

    def pairs(self, outer: str, inner: str) -> Iterator[tuple[str, Mate | None, Mate | None]]:
        """(position, outer mate, inner mate) wherever at least one of the two was read, by first appearance."""
        outer_column, inner_column = self.columns[outer], self.columns[inner]
        for position, place in self._places.items():
            pair = outer_column.at(place), inner_column.at(place)
            if any(pair):
                yield position, *pair
