"""Whether what a step brought before the inspector was decided, so that the work goes on with what is there."""

from engines.inspection.ends import last_decision
from engines.inspection.models import Discrepancy
from engines.inspection.standing import Kind
from engines.steps.work import Work

ACCEPTS = (Kind.ACCEPT, Kind.CONCESSION)


def is_let_pass(work: Work, about: str) -> bool:
    """The newest discrepancy of this operation about that (its words begin so) stands decided, and lets it stay as it is."""
    mine = [
        each for each in work.now.discrepancies if each.operation == work.operation.code and each.words.startswith(f"{about}:")
    ]
    return bool(mine) and _lets_pass(max(mine, key=lambda each: each.number))


def _lets_pass(found: Discrepancy) -> bool:
    decided = last_decision(found)
    return decided is not None and decided.kind in ACCEPTS
