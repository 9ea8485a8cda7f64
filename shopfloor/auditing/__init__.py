"""The ledger as people read it: pages and API over the events, each with its proof. Above people, because it names them."""
