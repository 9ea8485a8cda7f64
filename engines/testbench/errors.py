"""Refusals on the stand, worded for whoever stands there. `status` is the HTTP answer; nothing was changed."""

from collections.abc import Sequence

MOST_TOLD = 20


class StandRefused(Exception):
    status = 409


class FieldRefused(StandRefused):
    status = 422


class NoSchedule(StandRefused):
    def __init__(self, model: str) -> None:
        super().__init__(f"The engine data of {model} have no schedule for a run on the stand.")


class NotInTest(StandRefused):
    def __init__(self, stage: str) -> None:
        super().__init__(f"The whole engine stands in {stage}. A run is begun and goes on while it stands in test.")


class RunGoesOn(StandRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"Run {number} of this engine is going on. End it, or break it off, before another is begun.")


class RunEnded(StandRefused):
    def __init__(self, number: int, outcome: str) -> None:
        super().__init__(f"Run {number} has ended ({outcome}). Nothing is added to it; begin another one.")


class StepRefused(StandRefused):
    pass


class StepNotGoing(StandRefused):
    def __init__(self, title: str) -> None:
        super().__init__(f"{title} is not going on now. Reload the page: somebody has moved on, or the step was not begun.")


class NotComplete(StandRefused):
    def __init__(self, missing: Sequence[str]) -> None:
        self.missing = tuple(missing)
        super().__init__("The run cannot be ended as passed yet. " + " ".join(missing))


class SeenOtherwise(StandRefused):
    def __init__(self) -> None:
        super().__init__("Something was entered since you opened this page. Look at the run again, then end what you see.")


class CorrectedAlready(StandRefused):
    def __init__(self) -> None:
        super().__init__("That reading was corrected already. Correct the newer one.")


class LogRefused(StandRefused):
    """Every mistake with its line; nothing of the log was kept."""

    status = 422

    def __init__(self, mistakes: Sequence[str]) -> None:
        self.mistakes = tuple(mistakes)
        more = f" And {len(mistakes) - MOST_TOLD} more." if len(mistakes) > MOST_TOLD else ""
        count = "one mistake" if len(mistakes) == 1 else f"{len(mistakes)} mistakes"
        super().__init__(f"Nothing was kept: {count}. " + " ".join(mistakes[:MOST_TOLD]) + more)
