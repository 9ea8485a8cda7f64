"""What happens to an order stands on the chain of its engine and on `stores`."""

from django.db.models import Model

from engines.parts.queries import chain_of
from engines.vendors.models import OutsideWork
from shopfloor.ledger.services import Entry


def entries_of(order: OutsideWork, *acts: tuple[str, Model]) -> list[Entry]:
    chains = dict.fromkeys((chain_of(order.root), "stores"))
    return [Entry(chain=chain, kind=kind, of=of) for chain in chains for kind, of in acts]
