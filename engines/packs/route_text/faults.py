"""The text of a route as part of a pack: what the loader would say of it, each mistake at its operation."""

from bisect import bisect_right
from dataclasses import dataclass, replace

from engines.catalogue.data import PackData
from engines.packs.reading import PackMistakes, pack_of
from engines.packs.reading.mistakes import ROUTE, Mistake
from engines.packs.route_text.blocks import Route, cut
from engines.packs.writing import files_of


@dataclass(frozen=True)
class Faults:
    """`at` are those of each operation, by its place; `elsewhere` those of the data as a whole."""

    at: list[list[Mistake]]
    elsewhere: list[Mistake]

    @property
    def count(self) -> int:
        return sum(map(len, self.at)) + len(self.elsewhere)


def pack_with(base: PackData, text: str, revision: str) -> PackData:
    """The data of the base with another route, read as if they were loaded from files. Raises PackMistakes."""
    return pack_of({**files_of(replace(base, revision=revision)), ROUTE: text.encode()})


def faults_of(base: PackData, text: str) -> Faults:
    route = cut(text)
    try:
        pack_with(base, text, base.revision)
    except PackMistakes as found:
        return _placed(route, found.mistakes)
    return _placed(route, [])


def _placed(route: Route, mistakes: list[Mistake]) -> Faults:
    at: list[list[Mistake]] = [[] for _ in route.blocks]
    elsewhere: list[Mistake] = []
    starts = route.starts
    for mistake in mistakes:
        place = bisect_right(starts, mistake.line or 0) - 1 if mistake.file == ROUTE else -1
        (at[place] if place >= 0 else elsewhere).append(mistake)
    return Faults(at, elsewhere)
