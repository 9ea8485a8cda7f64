"""What the pages of a draft show: its operations, what the loader would say of each, and how they differ from the data."""

from dataclasses import dataclass

from engines.catalogue.data import Operation
from engines.catalogue.models import RouteDraft, RouteText
from engines.catalogue.queries import data_of, packs_in_force
from engines.packs.beside import OperationBeside, routes_beside
from engines.packs.reading.draft import Draft
from engines.packs.reading.mistakes import Mistake, Notes
from engines.packs.reading.route import read_route
from engines.packs.route_text import faults_of
from measurements.limits.models import State


@dataclass(frozen=True)
class DraftLine:
    place: int
    operation: Operation
    mistakes: list[Mistake]


@dataclass(frozen=True)
class DraftPage:
    newest: RouteText
    lines: list[DraftLine]
    elsewhere: list[Mistake]

    @property
    def mistakes(self) -> int:
        return len(self.elsewhere) + sum(len(each.mistakes) for each in self.lines)


def draft_page(draft: RouteDraft, newest: RouteText) -> DraftPage:
    faults = faults_of(data_of(draft.pack), newest.text)
    read = zip(operations_of(newest.text), faults.at, strict=True)
    lines = [DraftLine(place, operation, mistakes) for place, (operation, mistakes) in enumerate(read)]
    return DraftPage(newest, lines, faults.elsewhere)


def operations_of(text: str) -> list[Operation]:
    """As far as they can be read, mistakes and all."""
    draft = Draft()
    read_route(text, draft, Notes())
    return [placed.entry for placed in draft.operations]


def beside_its_data(draft: RouteDraft, newest: RouteText) -> list[OperationBeside]:
    return routes_beside(data_of(draft.pack).operations, operations_of(newest.text))


def gave_way_to(draft: RouteDraft) -> str:
    """The revision in force, where it took the place of the one that the draft began from; else blank."""
    if draft.sent_at or draft.pack.state != State.SUPERSEDED:
        return ""
    found = packs_in_force().filter(model_id=draft.pack.model_id).first()
    return found.revision if found else ""
