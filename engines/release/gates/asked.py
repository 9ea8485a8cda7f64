"""What the customer was asked is answered, and where they refused, it is decided otherwise."""

from engines.inspection.answers import stands_refused, unanswered
from engines.inspection.ends import is_open
from engines.release.blockers import Blocker, Situation


def requests_answered(situation: Situation) -> list[Blocker]:
    mine = [each for each in situation.now.discrepancies if each.area == situation.area.code]
    waiting = [
        Blocker(f"Request {asked.number} to the customer is not answered: {asked.words}", "request", asked.pk)
        for each in mine
        if (asked := unanswered(each))
    ]
    refused = [
        Blocker(f"The customer refused request {asked.number}: another decision is needed.", "discrepancy", each.pk)
        for each in mine
        if is_open(situation.now, each) and (asked := stands_refused(each))
    ]
    return waiting + refused
