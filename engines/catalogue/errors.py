"""Refusals about engine data, worded for the person who loads or approves it."""


class DataRefused(Exception):
    """An act on engine data that cannot be; nothing was changed. `status` is its HTTP answer."""

    status = 409


class RevisionTaken(DataRefused):
    def __init__(self, model: str, revision: str) -> None:
        super().__init__(f"{model} has data of revision {revision} already. Give the changed data a new revision.")


class OwnData(DataRefused):
    status = 403

    def __init__(self) -> None:
        super().__init__("You loaded this data, so another person checks and approves it. Ask an inspector.")


class NotAnApprover(DataRefused):
    """The roster does not let this person approve; the sentence says why and whom to ask."""

    status = 403


class NotADraft(DataRefused):
    def __init__(self) -> None:
        super().__init__("This data is no draft any more. Reload the page to see its state.")


class PagesUnchecked(DataRefused):
    def __init__(self, missing: int) -> None:
        pages = "page is" if missing == 1 else "pages are"
        super().__init__(f"{missing} {pages} not checked yet. Hold the data against each page before it is approved.")


class NoSuchPage(DataRefused):
    status = 422

    def __init__(self) -> None:
        super().__init__("The data cites no such page. Reload the page and choose from the list.")


class NothingInForce(DataRefused):
    def __init__(self, model: str) -> None:
        super().__init__(f"No data of {model} is approved, so nothing can be judged. Ask an inspector to approve its data.")
