"""The chapters, in the order in which they are told. One that was told is never told again; one cut short is told to its end."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from engines.scenario.chapters import authorisations, engines, gauges, packs, people, sheets, vendors
from engines.scenario.names import kind_of
from engines.scenario.saying import Say


@dataclass(frozen=True)
class Chapter:
    name: str
    tell: Callable[[datetime, Say], None]

    @property
    def kind(self) -> str:
        return kind_of(self.name)


CHAPTERS = [
    Chapter("people", people.tell),
    Chapter("authorisations", authorisations.tell),
    Chapter("gauges", gauges.tell),
    Chapter("sheets", sheets.tell),
    Chapter("packs", packs.tell),
    Chapter("vendors", vendors.tell),
    Chapter("engines", engines.tell),
]
