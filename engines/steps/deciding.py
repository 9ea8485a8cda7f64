"""Whether what a step brought before the inspector was decided, so that the work goes on with what is there."""

from collections.abc import Collection
from datetime import datetime

from engines.inspection.ends import last_decision
from engines.inspection.models import Discrepancy
from engines.inspection.standing import Kind
from engines.steps.work import Work

ACCEPTS = (Kind.ACCEPT, Kind.CONCESSION)


def is_let_pass(work: Work, about: str, moments: Collection[datetime], by: Collection[Kind] = ACCEPTS) -> bool:
    """The newest discrepancy of this operation about that, raised by an entry of one of those moments, lets it stay as it is.

    Its words begin with what it is about. One of an earlier round, or about what was there before, lets nothing pass. `by` are
    the decisions that do.
    """
    mine = [each for each in work.now.discrepancies if each.operation == work.operation.code and each.raised_at in moments]
    mine = [each for each in mine if each.words.startswith(f"{about}:")]
    return bool(mine) and _lets_pass(max(mine, key=lambda each: each.number), by)


def _lets_pass(found: Discrepancy, by: Collection[Kind]) -> bool:
    decided = last_decision(found)
    return decided is not None and decided.kind in by
