"""A reason that an area stays where it is: a sentence, and where to go about it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from uuid import UUID

from engines.inspection.facts import Inspection
from engines.traveler.models import Operation
from engines.visits.models import AddedOperation, ImpactLine, VisitArea


@dataclass(frozen=True)
class Blocker:
    """`about` says what kind of page helps, `key` which one: an operation, a discrepancy, the runs, or the visit itself."""

    sentence: str
    about: str = "visit"
    key: UUID | None = None


@dataclass(frozen=True)
class Situation:
    """All that gates look at, gathered once: the area, its visit's operations, inspection, impact lines and additions."""

    area: VisitArea
    operations: Sequence[Operation]
    now: Inspection
    impact: Sequence[ImpactLine]
    areas: Sequence[VisitArea]
    additions: Sequence[AddedOperation] = ()

    def of(self, area: VisitArea) -> "Situation":
        """The same for another area of the visit."""
        return replace(self, area=area)


Gate = Callable[[Situation], list[Blocker]]
