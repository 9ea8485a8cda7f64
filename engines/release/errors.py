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


class ReleaseRefused(MoveRefused):
    """A release that cannot be signed as it stands."""


class NotAuthorised(ReleaseRefused):
    status = 403


class FieldRefused(ReleaseRefused):
    status = 422


class ReleaseHeld(ReleaseRefused):
    def __init__(self, blockers: Sequence[Blocker]) -> None:
        self.blockers = tuple(blockers)
        things = "one thing holds" if len(blockers) == 1 else f"{len(blockers)} things hold"
        super().__init__(f"The engine cannot be released: {things} it. The list below says what to do about each.")


class SeenOtherwise(ReleaseRefused):
    def __init__(self) -> None:
        super().__init__("Something changed since this text was shown to you. Look at it again, then sign what you see.")


class AmendedAlready(ReleaseRefused):
    def __init__(self, number: int, by: int) -> None:
        super().__init__(f"Release {number} was amended already. Open release {by} and amend that one.")


class NumberTaken(ReleaseRefused):
    def __init__(self) -> None:
        super().__init__("Another engine was released at the same moment. Press the button again.")


class SeenAlready(ReleaseRefused):
    def __init__(self) -> None:
        super().__init__("This notice was seen already. Reload the page.")


class MarkedAlready(ReleaseRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"Discrepancy {number} is marked as a serious defect already.")


class ReportedAlready(ReleaseRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"The serious defect of discrepancy {number} was reported already.")
