from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.db import DEFAULT_DB_ALIAS

from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from shopfloor.ledger.snapshot import snapshot


class Command(BaseCommand):
    help = (
        "Checks every link, hash and head of the ledger, then its events against the records, and names each fault; exit 1 if "
        "there is one. It finds accidents and partial edits. It cannot find the work of a database owner who rewrites events, "
        "heads and records together, nor the loss of the newest events of a chain, head included, that are about no record: "
        "that takes a signed root kept elsewhere."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--database", default=DEFAULT_DB_ALIAS)

    def handle(self, *args: Any, database: str, **options: Any) -> None:
        count = 0
        with snapshot(database):
            for count, fault in enumerate(verify(database), start=1):  # noqa: B007
                self.stdout.write(str(fault))
            events = LedgerEvent.objects.using(database).count()
        if count:
            self.stdout.write(f"{count} fault(s) in a ledger of {events} events. Keep this output and a copy of the database.")
            raise SystemExit(1)
        self.stdout.write(f"No fault found in {events} events.")
