"""Refusals to move an area. `status` is the HTTP answer; nothing was changed."""

from collections.abc import Sequence

from engines.release.blockers import Blocker


class MoveRefused(Exception):
    status = 409


class Held(MoveRefused):
    def __init__(self, area: str, after: str, blockers: Sequence[Blocker]) -> None:
        self.blockers = tuple(blockers)
        things = "one thing holds" if len(blockers) == 1 else f"{len(blockers)} things hold"
        super().__init__(f"{area} cannot go on to {after}: {things} it. The list below says what to do about each.")


class AtTheEnd(MoveRefused):
    def __init__(self, area: str) -> None:
        super().__init__(f"{area} stands in its last stage.")


class ReasonMissing(MoveRefused):
    status = 422

    def __init__(self) -> None:
        super().__init__("Say why it goes back: the reason stays in the record.")
