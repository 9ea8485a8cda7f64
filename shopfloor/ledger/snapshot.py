"""One unmoving view of the database while the ledger is verified, without holding up the writers."""

from collections.abc import Iterator
from contextlib import contextmanager

from django.db import connections, transaction


@contextmanager
def snapshot(using: str) -> Iterator[None]:
    connection = connections[using]
    if connection.in_atomic_block:
        yield
    elif connection.vendor == "postgresql":
        with transaction.atomic(using=using), connection.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY")
            yield
    else:
        # Not transaction.atomic: an immediate transaction would lock out every writer until the end.
        with connection.cursor() as cursor:
            cursor.execute("BEGIN DEFERRED")
            try:
                yield
            finally:
                cursor.execute("ROLLBACK")
