"""What a step is given to work with, and what every kind of step answers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, ClassVar

from django import forms

from engines.catalogue.data import Line, Operation, PackData
from engines.inspection.facts import Inspection
from engines.steps.details import unknown
from engines.visits.models import Visit
from measurements.readings.models import Reading
from shopfloor.people.models import Person

Content = dict[str, Any]
Spot = tuple[str, str]
PARTS, ROWS, FITS = "parts", "rows", "fits"


class StepRefused(Exception):
    """What was entered cannot be kept; the sentence says what to do."""

    status = 422


@dataclass(frozen=True)
class Work:
    """One operation of one visit: what the data say, what was entered in this round, how the engine stands.

    `hands` and `moments` say by whom (person id) and when each of the entries was made. `at` is the moment of the act: what may
    be entered or signed can depend on it, what is shown to a signer never does. `by` is the person (id) before whom it lies.
    """

    visit: Visit
    operation: Operation
    now: Inspection
    entries: Sequence[Content] = ()
    hands: Sequence[int] = ()
    moments: Sequence[datetime] = ()
    at: datetime | None = None
    by: int | None = None

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
    names_what: ClassVar[str] = ""  # what the names of its operation are: PARTS, ROWS, FITS, or nothing
    needs_names: ClassVar[bool] = False
    moves_parts: ClassVar[bool] = False  # off or onto the engine, so the parts are of its own area
    fits_parts: ClassVar[bool] = False  # each position that it names holds a part when it is signed
    is_rechecked: ClassVar[bool] = False  # what was signed holds only while the parts and their readings stay as they were
    judged_by_words: ClassVar[bool] = False  # a criterion has to stand there
    asks_of_names: ClassVar[bool] = False  # only how its named rows stand, so nothing else is gathered for it
    has_own_paper: ClassVar[bool] = False
    follows_parts_out: ClassVar[bool] = False  # its work goes on while the part is out of the shop
    can_find: ClassVar[bool] = False  # what is not accepted here may open other operations

    @property
    def template(self) -> str:
        return f"steps/{self.name.replace('-', '_')}.html"

    @property
    def paper(self) -> str:
        """The template that prints its entries on the traveler; a kind without one of its own prints them as words."""
        own = f"steps/paper/{self.name.replace('-', '_')}.html"
        return own if self.has_own_paper else "steps/paper/entries.html"

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        """What is wrong with the details of an operation when its data are loaded, a sentence each."""
        yield from unknown(self.name, operation.details, ())

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> forms.Form | None:
        """What can be entered now; None where nothing is."""
        return None

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content | None:
        """Write what was entered through the rooms below; the content of the entry, if the step has any."""
        raise StepRefused("Nothing is entered at this operation.")

    def is_not_accepted(self, content: Content) -> bool:
        """Whether an entry says that something is not as it must be, so that what its operation finds is found."""
        return False

    def keep_all(self, work: Work, given: Sequence[Mapping[str, Any]], *, by: Person, at: datetime) -> list[Content]:
        """The same of several in one act, each after what was entered before it; the contents of their entries."""
        kept: list[Content] = []
        for each in given:
            before = replace(
                work,
                entries=[*work.entries, *kept],
                hands=[*work.hands, *(by.pk for _ in kept)],
                moments=[*work.moments, *(at for _ in kept)],
            )
            content = self.keep(before, each, by=by, at=at)
            kept += [content] if content is not None else []
        return kept

    def missing(self, work: Work) -> list[str]:
        """What must still be done before it is signed, a sentence each."""
        return []

    def level(self, operation: Operation) -> int:
        """The level of training that the data ask of who does it; 0 for none."""
        return 0

    def handover(self, work: Work) -> list[str]:
        """What whoever comes on next must know while it is begun and not signed, a sentence each. Asks the database nothing."""
        return []

    def is_again_after_rework(self, operation: Operation) -> bool:
        """Whether the data ask for it anew once a part that it names was reworked, or another took its place."""
        return False

    def refuses_signer(self, work: Work, by: Person) -> list[str]:
        """Why this person cannot sign it, a sentence each, where that depends on whose hands did the work."""
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
        **({"details": operation.details} if operation.details else {}),
    }
