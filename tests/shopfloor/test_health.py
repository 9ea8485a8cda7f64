"""`/health/`: each part named, 503 as soon as one is unwell, no secret in it."""

import socket
import time

import pytest
from django.db import DatabaseError, connection
from django.utils import timezone

from shopfloor import health
from shopfloor.jobs import queue, services

pytestmark = pytest.mark.django_db
PARTS = {"database", "triggers", "broker", "worker", "storage"}


@pytest.fixture
def worker_at_work():
    services.beat(worker="here:1", started_at=timezone.now(), at=timezone.now())


def unwell(client):
    answer = client.get("/health/")
    found = answer.json()
    assert answer["Cache-Control"] == "no-store"
    assert set(found) == {"ok", *PARTS}
    assert answer.status_code == (200 if found["ok"] else 503)
    return {part for part in PARTS if not found[part]["ok"]}, found


def test_all_is_well(client, worker_at_work):
    assert unwell(client)[0] == set()


def test_a_silent_worker(client):
    parts, found = unwell(client)
    assert parts == {"worker"}
    assert found["worker"]["sentence"].startswith("No worker gives a sign of life.")


@pytest.mark.parametrize("scheme", ["redis", "amqp"])
def test_a_broker_that_hangs_delays_the_answer_by_less_than_a_second(client, worker_at_work, monkeypatch, scheme):
    with socket.socket() as silent:
        silent.bind(("127.0.0.1", 0))
        silent.listen()
        address = f"{scheme}://keeper:pass-word@127.0.0.1:{silent.getsockname()[1]}//"
        monkeypatch.setattr(queue, "app", queue.make_app(address))
        begun = time.monotonic()
        parts, found = unwell(client)
        assert time.monotonic() - begun < 1
    assert parts == {"broker"}
    assert "pass-word" not in str(found)


def test_storage_that_cannot_be_written(client, worker_at_work, settings, tmp_path):
    (tmp_path / "file").write_text("where the folder should be")
    settings.STORAGES["default"]["OPTIONS"]["location"] = tmp_path / "file"
    settings.STORAGES = {**settings.STORAGES}
    assert unwell(client)[0] == {"storage"}


@pytest.mark.sqlite
def test_a_missing_trigger(client, worker_at_work):
    with connection.cursor() as cursor:
        cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'documents_document'")
        cursor.execute(f'DROP TRIGGER "{cursor.fetchone()[0]}"')
    assert unwell(client)[0] == {"triggers"}


def test_a_database_that_is_gone(client, monkeypatch):
    def gone():
        raise DatabaseError("password=pass-word")

    monkeypatch.setitem(health.CHECKS, "database", (gone, *health.CHECKS["database"][1:]))
    parts, found = unwell(client)
    assert "database" in parts
    assert "pass-word" not in str(found)
