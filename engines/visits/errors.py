"""Refusals about a visit, worded for the person at the bench. `status` is the HTTP answer; nothing was changed."""


class VisitRefused(Exception):
    status = 409


class FieldRefused(VisitRefused):
    status = 422


class HereAlready(VisitRefused):
    def __init__(self, serial: str, number: int) -> None:
        super().__init__(f"Engine {serial} is in the shop already, as visit {number}. Close that visit first.")


class AnothersEngine(VisitRefused):
    def __init__(self, serial: str, customer: str) -> None:
        super().__init__(
            f"Engine {serial} is on record for {customer}. Check the serial, or the customer, before it is received."
        )


class TrayTaken(VisitRefused):
    def __init__(self, tag: str, number: int) -> None:
        super().__init__(f"Tray {tag} holds parts of visit {number}. Take a tray with another tag: two engines never share one.")


class TaggedAlready(VisitRefused):
    def __init__(self, name: str, place: str) -> None:
        super().__init__(f"{name} at {place} is tagged already. A part that takes its place is entered as its replacement.")


class ElsewhereByRecord(VisitRefused):
    def __init__(self, item: str, where: str) -> None:
        super().__init__(
            f"By the record {item} is {where}. Read the number on the part again; if it is right, an inspector has to find out "
            "which record is wrong before this part goes further."
        )


class NotTagged(VisitRefused):
    def __init__(self, name: str, place: str) -> None:
        super().__init__(f"{name} at {place} is not tagged yet. Tag it first: without an identity nothing can be recorded of it.")


class NoSuchPlace(VisitRefused):
    status = 422

    def __init__(self, name: str, place: str) -> None:
        super().__init__(f"The parts list has no {name} at {place}. Choose a position from the list.")


class NotAMove(VisitRefused):
    def __init__(self, area: str, before: str, after: str) -> None:
        super().__init__(f"{area} stands in {before} and cannot go to {after}: one stage on, or back to an earlier one.")


class Closed(VisitRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"Visit {number} is closed. Nothing is added to it.")


class Settled(VisitRefused):
    def __init__(self) -> None:
        super().__init__("This line is settled already. Reload the page.")
