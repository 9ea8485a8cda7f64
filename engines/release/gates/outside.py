"""What came back from a vendor is read again and good before the area goes on, also where the data require it nowhere else."""

from engines.inspection.standing import DONE
from engines.release.blockers import Blocker, Situation
from engines.release.gates.decided import blocker_of


def read_again_after_vendor(situation: Situation) -> list[Blocker]:
    now = situation.now
    worked = {(row, each.line, each.place) for each in now.outside if each.area == situation.area.code for row in each.read_again}
    mine = (each for each in now.rows.requirements if not each.required and (each.row, each.line, each.at) in worked)
    standings = [now.of(each) for each in mine]
    return [blocker_of(situation, each) for each in standings if each.state not in DONE]
