"""What the customer said about a discrepancy, and what that means for the decisions about it.

A refusal undoes every decision made before it: the discrepancy is undecided again. It never makes anything good.
"""

from engines.inspection.errors import AwaitsAnswer, CustomerRefused
from engines.inspection.models import Discrepancy, Disposition, Said, WorkAsked
from engines.inspection.standing import Kind


def unanswered(found: Discrepancy) -> WorkAsked | None:
    return next((each for each in found.asked if each.waits), None)


def refusal_of(found: Discrepancy, made: Disposition) -> WorkAsked | None:
    """The request whose refusal undid a decision."""
    return next((each for each in _refused(found) if each.answer.answered_at >= made.made_at), None)


def refused_kind(found: Discrepancy, kind: str) -> WorkAsked | None:
    """The request of this kind of work that was refused, where no later one of that kind was approved."""
    answered = [each for each in found.asked if _same_work(each.kind) == _same_work(kind) and each.said]
    return answered[-1] if answered and answered[-1].said == Said.REFUSED else None


def stands_refused(found: Discrepancy) -> WorkAsked | None:
    """The newest refusal, as long as no complete decision came after it."""
    refused = _refused(found)
    holding = [made for made in found.made if made.is_complete and refusal_of(found, made) is None]
    return refused[-1] if refused and not holding else None


def check_may_be_done(found: Discrepancy, made: Disposition) -> None:
    """Work waits for the answer, and a refused one is not done. Raises AwaitsAnswer, CustomerRefused."""
    if waiting := unanswered(found):
        raise AwaitsAnswer(found.number, waiting.number)
    if refused := refusal_of(found, made):
        raise CustomerRefused(found.number, refused.number)


def _same_work(kind: str) -> str:
    """Whoever scraps a part must replace it."""
    return Kind.REPLACE if kind == Kind.SCRAP else kind


def _refused(found: Discrepancy) -> list[WorkAsked]:
    return [each for each in found.asked if each.said == Said.REFUSED]
