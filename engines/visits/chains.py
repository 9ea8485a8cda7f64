"""The chain of the ledger that holds everything about one engine."""

from engines.parts.queries import engine_chain
from engines.visits.models import Visit


def chain_of(visit: Visit) -> str:
    return engine_chain(visit.engine_id)
