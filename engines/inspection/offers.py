"""Which decisions a discrepancy may get. The page offers what the service takes: one rule for both."""

from engines.inspection.answers import refused_kind
from engines.inspection.errors import NotOffered
from engines.inspection.models import Discrepancy
from engines.inspection.standing import NEW_PART, WORK, Kind
from measurements.metrology.verdicts import Verdict

OUTSIDE = "the reading lies outside limits. Rework or replace the part, or ask for a concession."
NO_PART = "no part is named. Raise it again with the part at its position."


def check_offered(kind: Kind, found: Discrepancy) -> None:
    """Raises NotOffered."""
    if kind == Kind.ACCEPT and found.reading and found.reading.verdict == Verdict.OUTSIDE:
        raise NotOffered(kind, OUTSIDE)
    if kind in NEW_PART and not found.line:
        raise NotOffered(kind, NO_PART)
    if kind in WORK and (refused := refused_kind(found, kind)):
        raise NotOffered(
            kind, f"the customer refused it (request {refused.number}). Decide otherwise, or ask again and await a yes."
        )


def work_offered(found: Discrepancy) -> list[Kind]:
    """What a customer may be asked about: work, never a limit. What was refused may be asked about again."""
    return [kind for kind in Kind if kind in WORK and (found.line or kind not in NEW_PART)]


def offered(found: Discrepancy) -> list[Kind]:
    return [kind for kind in Kind if can_offer(kind, found)]


def can_offer(kind: Kind, found: Discrepancy) -> bool:
    try:
        check_offered(kind, found)
    except NotOffered:
        return False
    return True
