"""What was last read at each position of the rows that a fit names: one compact entry per position and row."""

from array import array
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from measurements.judge.scales import Typed

MACHINE_INTEGERS = range(-(2**63), 2**63)


class Mate(NamedTuple):
    """The last reading of a row at a position: whole numbers as typed, and how they were typed. `u` 0 is not stated."""

    typed: Typed
    least: int
    greatest: int
    u: int


class MateColumn:
    """The mates of one row, three machine integers and a kind each; figures too long for that are kept beside."""

    def __init__(self) -> None:
        self._kinds: list[Typed] = []
        self._number_of: dict[Typed, int] = {}
        self._kind = array("i")
        self._figures = array("q")
        self._long: dict[int, tuple[int, int, int]] = {}

    def keep(self, place: int, mate: Mate) -> None:
        """The mate at the numbered place, in the stead of an earlier one."""
        self._reach(place)
        self._kind[place] = self._kind_number(mate.typed)
        figures = mate[1:]
        if all(figure in MACHINE_INTEGERS for figure in figures):
            self._figures[3 * place : 3 * place + 3] = array("q", figures)
            self._long.pop(place, None)
        else:
            self._long[place] = figures

    def at(self, place: int) -> Mate | None:
        """The mate at the numbered place, None where nothing was read."""
        if place >= len(self._kind) or not self._kind[place]:
            return None
        figures = self._long.get(place) or self._figures[3 * place : 3 * place + 3]
        return Mate(self._kinds[self._kind[place] - 1], *figures)

    def _reach(self, place: int) -> None:
        missing = place + 1 - len(self._kind)
        if missing > 0:
            self._kind.frombytes(bytes(missing * self._kind.itemsize))
            self._figures.frombytes(bytes(3 * missing * self._figures.itemsize))

    def _kind_number(self, typed: Typed) -> int:
        number = self._number_of.get(typed)
        if number is None:
            self._kinds.append(typed)
            number = self._number_of[typed] = len(self._kinds)
        return number


class Mates:
    """The mates of all named rows, positions numbered in order of first appearance."""

    def __init__(self, rows: Iterable[str]) -> None:
        self.columns = {row: MateColumn() for row in rows}
        self._places: dict[str, int] = {}

    def keep(self, row: str, position: str, mate: Mate) -> None:
        """Remembers a reading of a named row; the last one at a position counts."""
        self.columns[row].keep(self._places.setdefault(position, len(self._places)), mate)

    def pairs(self, outer: str, inner: str) -> Iterator[tuple[str, Mate | None, Mate | None]]:
        """(position, outer mate, inner mate) wherever at least one of the two was read, by first appearance."""
        outer_column, inner_column = self.columns[outer], self.columns[inner]
        for position, place in self._places.items():
            pair = outer_column.at(place), inner_column.at(place)
            if any(pair):
                yield position, *pair
