"""Which decisions a discrepancy may get. The page offers what the service takes: one rule for both."""

from engines.inspection.errors import NotOffered
from engines.inspection.models import Discrepancy
from engines.inspection.standing import NEW_PART, Kind
from measurements.metrology.verdicts import Verdict

OUTSIDE = "the reading lies outside limits. Rework or replace the part, or ask for a concession."
NO_PART = "no part is named. Raise it again with the part at its position."


def check_offered(kind: Kind, found: Discrepancy) -> None:
    """Raises NotOffered."""
    if kind == Kind.ACCEPT and found.reading and found.reading.verdict == Verdict.OUTSIDE:
        raise NotOffered(kind, OUTSIDE)
    if kind in NEW_PART and not found.line:
        raise NotOffered(kind, NO_PART)


def offered(found: Discrepancy) -> list[Kind]:
    return [kind for kind in Kind if can_offer(kind, found)]


def can_offer(kind: Kind, found: Discrepancy) -> bool:
    try:
        check_offered(kind, found)
    except NotOffered:
        return False
    return True
