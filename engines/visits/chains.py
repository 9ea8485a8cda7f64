"""The chain of the ledger that holds everything about one engine."""

from engines.visits.models import Visit


def chain_of(visit: Visit) -> str:
    return f"engine:{visit.engine_id}"
