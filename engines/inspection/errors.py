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


class Scrapped(InspectionRefused):
    def __init__(self, name: str, place: str) -> None:
        super().__init__(f"{name} at {place} was scrapped. Tag the part that takes its place, and read that one.")


class IsOut(InspectionRefused):
    def __init__(self, sentence: str) -> None:
        super().__init__(f"{sentence} It is read when it is back.")


class CountsNoLonger(InspectionRefused):
    def __init__(self, row: str, place: str) -> None:
        super().__init__(
            f"The reading that this would correct is not the one that counts now for {row} at {place}: it is of another place, "
            "visit or part, or a newer reading or a rework came after it. Enter this as a new reading, or correct that one."
        )


class Answered(InspectionRefused):
    def __init__(self) -> None:
        super().__init__(
            "The reading that this is about no longer counts: the part was read again, or another one is there. "
            "What is to be decided now is what was read last."
        )


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


class AwaitsAnswer(InspectionRefused):
    def __init__(self, number: int, request: int) -> None:
        super().__init__(
            f"Discrepancy {number}: the customer was asked about this work (request {request}) and has not answered yet. "
            "The work waits; ring them, or withdraw the request."
        )


class CustomerRefused(InspectionRefused):
    def __init__(self, number: int, request: int) -> None:
        super().__init__(
            f"Discrepancy {number}: the customer refused this work (request {request}). Another decision that the data permit is "
            "needed first."
        )


class AskedAlready(InspectionRefused):
    def __init__(self, request: int) -> None:
        super().__init__(f"Request {request} about this is not answered yet. Wait for the answer, or withdraw it and ask anew.")


class NothingToAsk(InspectionRefused):
    def __init__(self) -> None:
        super().__init__("Nothing is open here: the work is done, or the part was read again. There is nothing to ask about.")


class AnsweredAlready(InspectionRefused):
    def __init__(self, said: str) -> None:
        super().__init__(f"This request was {said} already. Reload the page; to change an answer, ring the shop: they ask anew.")


class NotYours(InspectionRefused):
    status = 404

    def __init__(self) -> None:
        super().__init__("There is no such request for you to answer.")
