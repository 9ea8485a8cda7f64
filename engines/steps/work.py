"""What a step is given to work with, and what every kind of step answers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, ClassVar

from django import forms

from engines.catalogue.data import Line, Operation, PackData
from engines.inspection.facts import Inspection
from engines.visits.models import Visit
from measurements.readings.models import Reading
from shopfloor.people.models import Person

Content = dict[str, Any]
Spot = tuple[str, str]


class StepRefused(Exception):
    """What was entered cannot be kept; the sentence says what to do."""

    status = 422


@dataclass(frozen=True)
class Work:
    """One operation of one visit: what the data say, what was entered in this round, how the engine stands."""

    visit: Visit
    operation: Operation
    now: Inspection
    entries: Sequence[Content] = ()

    @property
    def data(self) -> PackData:
        return self.now.rows.data

    @property
    def spots(self) -> list[Spot]:
        """Each position that the operation names, as (line, place)."""
        lines = (self.data.line_by_code[name] for name in self.operation.names)
        return [(line.line, place) for line in lines for place in line.places]

    def line(self, spot: Spot) -> Line:
        return self.data.line_by_code[spot[0]]

    def words(self, spot: Spot) -> str:
        return f"{self.line(spot).name}, {spot[1]}"


class Step:
    """A kind of step. Subclasses name themselves and say what is entered, kept, shown and missing."""

    name: ClassVar[str]
    words: ClassVar[str]
    caution: ClassVar[str] = ""

    @property
    def template(self) -> str:
        return f"steps/{self.name.replace('-', '_')}.html"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> forms.Form | None:
        """What can be entered now; None where nothing is."""
        return None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content | None:
        """Write what was entered through the rooms below; the content of the entry, if the step has any."""
        raise StepRefused("Nothing is entered at this operation.")

    def keep_all(self, work: Work, given: Sequence[Mapping[str, Any]], *, by: Person, at: datetime) -> list[Content]:
        """The same of several positions in one act; the contents of their entries."""
        kept = (self.keep(work, each, by=by, at=at) for each in given)
        return [content for content in kept if content is not None]

    def missing(self, work: Work) -> list[str]:
        """What must still be done before it is signed, a sentence each."""
        return []

    def undecided(self, work: Work) -> list[Reading]:
        """Readings of this operation that are not good and about which nobody was asked yet."""
        return []

    def shown(self, work: Work) -> Content:
        """All that the signer has before their eyes, as plain texts: it is hashed with the signature."""
        return {"entries": list(work.entries)}

    def lines(self, work: Work) -> Content:
        """What its templates draw."""
        return {"entries": work.entries}


def heading(work: Work) -> Content:
    """What the data say of an operation, as it is shown above every step."""
    operation = work.operation
    return {
        "engine": work.visit.engine.item.serial,
        "visit": str(work.visit.number),
        "operation": operation.code,
        "title": operation.title,
        "words": operation.words,
        "criterion": operation.criterion,
        "source": str(operation.source),
    }
