"""How much the ledger costs beside a bare insert of the same bytes, on the same PostgreSQL server and connection.

Run on a migrated database: DATABASE_URL=postgresql://... .venv/bin/python tests/benchmarks/ledger_append.py
Both sides commit once for each event and take turns, so that both meet the same disk. Everything lands in a schema of its
own, which is dropped at the end. Floor: the ledger appends at least a quarter as many events a second; exit 1 below it.
"""

import os
import statistics
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopfloor.settings")

FLOOR, ROUNDS, EVENTS, SCHEMA = 0.25, 10, 100, "ledger_benchmark"
NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
FACTS = {"reading": "2.1235 in", "plane": "2", "direction": "90", "verdict": "within new limits", "note": "x" * 200}


def main() -> int:
    import django

    django.setup()
    from django.core.management import call_command
    from django.db import connection

    if connection.vendor != "postgresql":
        print("This benchmark compares with PostgreSQL: set DATABASE_URL to a PostgreSQL database.")
        return 2
    with connection.cursor() as cursor:
        cursor.execute(f"DROP SCHEMA IF EXISTS {SCHEMA} CASCADE; CREATE SCHEMA {SCHEMA}; SET search_path = {SCHEMA}")
        try:
            call_command("migrate", verbosity=0, skip_checks=True)
            cursor.execute("CREATE TABLE bare (LIKE ledger_ledgerevent INCLUDING ALL)")
            return compare()
        finally:
            cursor.execute(f"DROP SCHEMA {SCHEMA} CASCADE")


def compare() -> int:
    append()
    ratios = []
    for turn in range(ROUNDS):
        bare = seconds(lambda place, turn=turn: insert(turn * EVENTS + place + 1))
        ledger = seconds(lambda place: append())
        ratios.append(bare / ledger)
        print(f"bare insert {EVENTS / bare:8.0f}/s   ledger {EVENTS / ledger:8.0f}/s   ratio {bare / ledger:.2f}")
    ratio = statistics.median(ratios)
    print(f"median ratio {ratio:.2f}, floor {FLOOR}")
    return 0 if ratio >= FLOOR else 1


def seconds(act) -> float:
    begun = time.perf_counter()
    for place in range(EVENTS):
        act(place)
    return time.perf_counter() - begun


def append() -> None:
    from django.db import transaction

    from shopfloor.ledger.kinds import register_kind
    from shopfloor.ledger.services import Entry, record

    register_kind("bench.timed", sentence=lambda event: "the bench was timed")
    with transaction.atomic():
        record(Entry("stores", "bench.timed", facts=FACTS), by=1, at=NOON)


def insert(sequence: int) -> None:
    """The bytes of the last event again, in one plain INSERT by psycopg itself, committed at once."""
    from django.db import connection

    from shopfloor.ledger.models import LedgerEvent

    if not hasattr(insert, "row"):
        event = LedgerEvent.objects.latest("id")
        insert.row = (
            event.kind, event.act, event.by, event.at, bytes(event.body_bytes), bytes(event.previous), bytes(event.hash)
        )  # fmt: skip
    connection.ensure_connection()
    connection.connection.execute(
        "INSERT INTO bare (chain, sequence, kind, act, by, at, about_label, about_id, body_bytes, previous, hash)"
        " VALUES ('stores', %s, %s, %s, %s, %s, '', '', %s, %s, %s)",
        (sequence, *insert.row),
    )


if __name__ == "__main__":
    sys.exit(main())
