"""At the end of repair what was decided is done: parts reworked are read again, new parts are in place and read."""

from engines.inspection.ends import is_carried_out
from engines.inspection.standing import DONE
from engines.release.blockers import Blocker, Situation
from engines.release.gates.decided import blocker_of
from measurements.limits.models import Condition


def everything_good(situation: Situation) -> list[Blocker]:
    standings = situation.now.required(areas=[situation.area.code])
    return [blocker_of(situation, each) for each in standings if each.state not in DONE]


def everything_good_as_assembled(situation: Situation) -> list[Blocker]:
    """What is read while the area goes together is read and good."""
    standings = situation.now.required(areas=[situation.area.code], condition=Condition.AS_ASSEMBLED)
    return [blocker_of(situation, each) for each in standings if each.state not in DONE]


def decisions_carried_out(situation: Situation) -> list[Blocker]:
    mine = (each for each in situation.now.discrepancies if each.area == situation.area.code)
    return [
        Blocker(f"Discrepancy {each.number}: “{made.kind}” is not carried out.", "discrepancy", each.pk)
        for each in mine
        for made in each.made
        if not is_carried_out(situation.now, each, made)
    ]
