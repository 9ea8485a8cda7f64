"""Parts that the data renew only together: where one of them came new on this visit, every one must have, with its evidence."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from engines.catalogue.data import Line, PackData, RenewedSet
from engines.inspection.standing import Spot
from engines.parts.models import Item


@dataclass(frozen=True)
class Member:
    """A part of a set; `new` is the item that came in its place on this visit, None while the one that came is there."""

    line: Line
    place: str
    new: Item | None
    is_proven: bool

    @property
    def words(self) -> str:
        return f"{self.line.name}, {self.place}"

    def calls_for(self, other: "Member") -> bool:
        """What is renewed at every overhaul calls only for what is so as well."""
        return self.new is not None and (other.line.renew or not self.line.renew)


@dataclass(frozen=True)
class Together:
    """The parts of a set that belong together: those of one place where all its lines have the same ones, else all."""

    renewed: RenewedSet
    members: tuple[Member, ...]

    @property
    def wrong(self) -> list[str]:
        """A sentence for each part that must be new, or proven, and is not."""
        return self.wrong_in()

    def wrong_in(self, area: str = "") -> list[str]:
        """The same of the parts of one area."""
        mine = (each for each in self.members if area in ("", each.line.area))
        return [sentence for each in mine if (sentence := self._why_not(each))]

    def _why_not(self, member: Member) -> str:
        because = next((each for each in self.members if each is not member and each.calls_for(member)), None)
        if because is None:
            return ""
        if member.new is None:
            why = f"{self.renewed.name} are renewed only together ({self.renewed.source})"
            return f"{member.words} is not new, but {because.words} is: {why}."
        return "" if member.is_proven else f"{member.words}: {member.new} has no evidence of eligibility. Book its certificate."


def together(data: PackData, new: Mapping[Spot, Item], proven: Collection[Item]) -> list[Together]:
    """Every set of the data, place by place. `new` is what came new at its (line, place), `proven` what has evidence."""
    return [
        Together(each, tuple(Member(line, place, item := new.get((line.line, place)), item in proven) for line, place in group))
        for each in data.renewed_sets
        for group in _groups([data.line_by_code[name] for name in each.lines])
    ]


def _groups(lines: list[Line]) -> Iterator[list[tuple[Line, str]]]:
    if len({frozenset(line.places) for line in lines}) == 1:
        yield from ([(line, place) for line in lines] for place in lines[0].places)
    else:
        yield [(line, place) for line in lines for place in line.places]
