"""Refusals at an operation, worded for whoever stands before it. `status` is the HTTP answer; nothing was changed."""

from collections.abc import Iterable


class OperationRefused(Exception):
    status = 409


class NotYet(OperationRefused):
    def __init__(self, reasons: Iterable[str]) -> None:
        super().__init__("Not yet: " + " ".join(reasons))


class SignedAlready(OperationRefused):
    def __init__(self, title: str) -> None:
        super().__init__(f"{title} is signed already. To change something, let it be opened again with a reason.")


class SeenOtherwise(OperationRefused):
    def __init__(self) -> None:
        super().__init__("Something changed on this operation since you opened it. Look at it again, then sign what you see.")


class NothingToAccept(OperationRefused):
    def __init__(self) -> None:
        super().__init__("There is nothing to accept here: it is no hold point, not signed yet, or accepted already.")


class SameHand(OperationRefused):
    status = 403

    def __init__(self) -> None:
        super().__init__("You signed this operation, so another authorised person accepts it.")


class NotAuthorised(OperationRefused):
    """Nothing on the roster lets this person do it today; the sentence says why, who may, and whom to ask."""

    status = 403


class ReasonMissing(OperationRefused):
    status = 422

    def __init__(self) -> None:
        super().__init__("Say why it is opened again.")


class AuthorisationRefused(OperationRefused):
    """A roster entry that cannot be made or ended; the sentence says what to do."""

    status = 422


class EndedAlready(OperationRefused):
    def __init__(self) -> None:
        super().__init__("This authorisation has ended already. Reload the page.")
