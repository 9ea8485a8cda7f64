"""How much a reading with its verdict and its event costs beside a bare insert of the same row, on the same PostgreSQL server.

Run on a migrated database: DATABASE_URL=postgresql://... .venv/bin/python tests/benchmarks/reading_save.py
Both sides use one connection and one table, with a transaction for each reading, and take turns. Then eight clients, each a
process of its own, take ten readings a second each, which no hand does. Everything lands in a schema of its own, which is
dropped at the end. Floors: one client keeps at least a quarter as many readings a second as the bare insert; of eight clients
95 in 100 readings are kept within 20 ms. Exit 1 below.
"""

import multiprocessing
import os
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopfloor.settings")

FLOOR, ROUNDS, READINGS = 0.25, 10, 100
CLIENTS, PACE, CEILING_MS = 8, 0.1, 20
SCHEMA = "reading_benchmark"
COLUMNS = "id, " + ", ".join(
    (
        "row_id", "points", "unit", "gauge_id", "calibration_id", "expanded_u", "condition", "set_up", "temperature",
        "part_coefficient", "gauge_coefficient", "minimum", "maximum", "mean", "verdict", "reason", "conformity",
        "evaluator_version", "taken_by_id", "taken_at", "received_at", "sequence",
    )
)  # fmt: skip


def main() -> int:
    os.environ["PGOPTIONS"] = f"-c search_path={SCHEMA}"
    import django

    django.setup()
    from django.core.management import call_command
    from django.db import connection

    if connection.vendor != "postgresql":
        print("This benchmark compares with PostgreSQL: set DATABASE_URL to a PostgreSQL database.")
        return 2
    with connection.cursor() as cursor:
        cursor.execute(f"DROP SCHEMA IF EXISTS {SCHEMA} CASCADE; CREATE SCHEMA {SCHEMA}")
    try:
        call_command("migrate", verbosity=0, skip_checks=True)
        prepare()
        slow = [alone(), together()]
    finally:
        with connection.cursor() as cursor:
            cursor.execute(f"DROP SCHEMA {SCHEMA} CASCADE")
    return int(any(slow))


def prepare() -> None:
    """A gauge in calibration and a row read at two planes in two directions."""
    from tests.making_gauges import calibrate, make_gauge
    from tests.making_people import make_person
    from tests.making_readings import make_row

    person = make_person()
    calibrate(make_gauge(person), person)
    make_row(person, planes=["1", "2"], directions=["0", "90"])


def taking():
    """An act that takes one reading; the person, the row and the gauge with its calibrations are fetched before."""
    from measurements.gauges.queries import gauges
    from measurements.limits.models import LimitRow
    from shopfloor.people.models import Person
    from tests.making_readings import make_reading

    person, row, gauge = Person.objects.get(), LimitRow.objects.get(), gauges().get()
    return lambda: make_reading(row, person, "2.4990", "2.4991", "2.4989", "2.4990", gauge=gauge)


def alone() -> bool:
    """Whether one client is below the floor."""
    take = taking()
    take()
    insert = inserting()
    ratios = []
    for _ in range(ROUNDS):
        bare, kept = seconds(insert), seconds(take)
        ratios.append(bare / kept)
        print(f"bare insert {READINGS / bare:8.0f}/s   reading {READINGS / kept:8.0f}/s   ratio {bare / kept:.2f}")
    ratio = statistics.median(ratios)
    print(f"one client: median ratio {ratio:.2f}, floor {FLOOR}")
    return ratio < FLOOR


def together() -> bool:
    """Whether eight clients are above the ceiling."""
    from django.db import connection

    connection.close()
    with multiprocessing.get_context("spawn").Pool(CLIENTS) as clients:
        times = sorted(taken for each in clients.map(client, range(CLIENTS), chunksize=1) for taken in each)
    at_95 = times[len(times) * 95 // 100] * 1000
    middle = times[len(times) // 2] * 1000
    print(f"{CLIENTS} clients: median {middle:.1f} ms, 95 in 100 within {at_95:.1f} ms, ceiling {CEILING_MS} ms")
    return at_95 > CEILING_MS


def client(number: int) -> list[float]:
    import django

    django.setup()
    take = taking()
    take()
    time.sleep(1 + number * PACE / CLIENTS)  # until the others are ready too, and not in step with them
    return [paced(take) for _ in range(READINGS)]


def paced(act) -> float:
    taken = seconds(act, 1)
    time.sleep(max(0.0, PACE - taken))
    return taken


def seconds(act, times: int = READINGS) -> float:
    begun = time.perf_counter()
    for _ in range(times):
        act()
    return time.perf_counter() - begun


def inserting():
    """A reading again under a new id: one INSERT and one commit by psycopg itself."""
    from django.db import connection
    from uuid_utils.compat import uuid7

    with connection.cursor() as cursor:
        cursor.execute(f"SELECT {COLUMNS} FROM readings_reading LIMIT 1")
        _, *row = cursor.fetchone()
    statement = f"INSERT INTO readings_reading ({COLUMNS}) VALUES (%s{', %s' * len(row)})"
    bare = connection.connection

    def insert() -> None:
        with bare.transaction():
            bare.execute(statement, (uuid7(), *row))

    return insert


if __name__ == "__main__":
    sys.exit(main())
