"""What the chapters are called in the ledger; known without what it takes to tell them."""

BEGUN = "scenario.begun"
NAMES = ("people", "authorisations", "gauges", "sheets", "packs", "vendors", "engines")


def kind_of(name: str) -> str:
    """The kind of the ledger event that says a chapter has been told."""
    return f"scenario.{name}"
