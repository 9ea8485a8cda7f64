"""The fits of named rows, computed from what was read on both mates; nothing is typed here."""

from engines.inspection.standing import Standing, State
from engines.steps.kinds.figures import drawn, not_asked_about, plain
from engines.steps.work import FITS, Content, Step, Work
from measurements.readings.models import Reading


class FitCheck(Step):
    name = "fit-check"
    words = "fit check"
    names_what, needs_names = FITS, True
    asks_of_names = True
    caution = (
        "A fit is worth what its two readings are worth. Where it surprises, read both parts again before anything is decided."
    )

    def missing(self, work: Work) -> list[str]:
        return [
            f"{each.requirement.row} at {each.requirement.place}: both mates must be read first."
            for each in self._standings(work)
            if each.state == State.MISSING
        ]

    def undecided(self, work: Work) -> list[Reading]:
        return not_asked_about(work, self._standings(work))

    def shown(self, work: Work) -> Content:
        return {"fits": [plain(work, each) for each in self._standings(work)]}

    def lines(self, work: Work) -> Content:
        return {"lines": [drawn(work, each) for each in self._standings(work)]}

    def _standings(self, work: Work) -> list[Standing]:
        return [work.now.of(each) for each in work.now.rows.requirements if each.row in work.operation.names]
