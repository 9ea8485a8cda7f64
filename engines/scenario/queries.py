"""What of the scenario stands in this database."""

from shopfloor.ledger.models import LedgerEvent


def told() -> set[str]:
    """The kinds of the scenario's events; the ledger forgets nothing, so neither does this."""
    return set(LedgerEvent.objects.filter(chain="shop", kind__startswith="scenario.").values_list("kind", flat=True))
