"""Refusals about readings and discrepancies on an engine. `status` is the HTTP answer; nothing was changed."""


class InspectionRefused(Exception):
    status = 409


class FieldRefused(InspectionRefused):
    status = 422


class NoSuchCharacteristic(InspectionRefused):
    status = 404

    def __init__(self, row: str, place: str) -> None:
        super().__init__(f"The engine data has no characteristic {row} at {place} for this engine.")


class NothingThere(InspectionRefused):
    def __init__(self, name: str, place: str) -> None:
        super().__init__(f"{name} at {place} has no identity yet, or was not there. Strip and tag it before it is measured.")


class NotOffered(InspectionRefused):
    def __init__(self, kind: str, why: str) -> None:
        super().__init__(f"“{kind}” is not offered here: {why}")


class DecidedAlready(InspectionRefused):
    def __init__(self) -> None:
        super().__init__("This was decided a moment ago by somebody else. Reload the page and look at that decision first.")


class SameHand(InspectionRefused):
    status = 403

    def __init__(self) -> None:
        super().__init__("You made this decision, so another authorised person gives the second signature.")


class SignedAlready(InspectionRefused):
    def __init__(self) -> None:
        super().__init__("This is signed already. Reload the page.")


class RaisedAlready(InspectionRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"That reading is discrepancy {number} already.")
