"""The test database, on both engines as the product runs it.

SQLite: a file, so that threads and processes share it. PostgreSQL: made and migrated by the owner, who is no superuser,
then used through the application's role; `as_owner` steps back to the owner where a test forges the record.
"""

from contextlib import contextmanager
from unittest.mock import patch

import pytest
from django.conf import settings
from django.contrib.auth.hashers import Argon2PasswordHasher
from django.db import connection, connections
from django.db.backends.signals import connection_created
from django.test import TransactionTestCase

from shopfloor.jobs.queue import make_app
from shopfloor.ledger import append_only

VENDOR = "postgresql" if "postgresql" in settings.DATABASES["default"]["ENGINE"] else "sqlite"


# The product's own hasher, but quick: a thousand sign-ins of the tests are no secret worth a tenth of a second each.
Argon2PasswordHasher.time_cost, Argon2PasswordHasher.memory_cost, Argon2PasswordHasher.parallelism = 1, 8, 1

# Otherwise every test client looks through all static files before its first request.
settings.WHITENOISE_AUTOREFRESH = True


def pytest_collection_modifyitems(config, items):
    """Tests for the other database are deselected: a skip would say that something was left undone."""
    other = "sqlite" if VENDOR == "postgresql" else "postgresql"
    theirs = [item for item in items if item.get_closest_marker(other)]
    if theirs:
        config.hook.pytest_deselected(items=theirs)
        items[:] = [item for item in items if not item.get_closest_marker(other)]


@pytest.fixture(scope="session")
def django_db_modify_db_settings(django_db_modify_db_settings, tmp_path_factory):
    if VENDOR == "sqlite":
        name = str(tmp_path_factory.mktemp("database") / "test.sqlite3")
        settings.DATABASES["default"]["TEST"]["NAME"] = connections["default"].settings_dict["TEST"]["NAME"] = name


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup, django_db_blocker):
    if not settings.DATABASE_APP_ROLE or VENDOR != "postgresql":
        yield
        return
    connection_created.connect(_become_the_application)
    with django_db_blocker.unblock():
        connections["default"].close()
        yield
        connection_created.disconnect(_become_the_application)
        connections["default"].close()


def _become_the_application(connection, **kwargs):
    with connection.cursor() as cursor:
        cursor.execute(f'SET ROLE "{settings.DATABASE_APP_ROLE}"')


@contextmanager
def _owner():
    """The owner of the tables, with every append-only trigger lifted, then reinstated."""
    two_roles = VENDOR == "postgresql" and settings.DATABASE_APP_ROLE
    if two_roles:
        connection.cursor().execute("RESET ROLE")
    append_only.remove(connection)
    yield
    append_only.install(connection)
    if two_roles:
        _become_the_application(connection)


@pytest.fixture
def as_owner():
    """`with as_owner():` lifts the triggers, as only the owner can; used by tests that forge the record."""
    return _owner


def _flush_as_owner(flush):
    def flushed(case):
        with _owner():
            flush(case)

    return flushed


@pytest.fixture(scope="session", autouse=True)
def _flush_between_tests_as_owner():
    with patch.object(TransactionTestCase, "_fixture_teardown", _flush_as_owner(TransactionTestCase._fixture_teardown)):
        yield


@pytest.fixture(autouse=True)
def own_folders(settings, tmp_path, monkeypatch):
    """Every test has its own storage and its own broker folder."""
    stored = {**settings.STORAGES["default"], "OPTIONS": {"location": tmp_path / "files"}}
    settings.STORAGES = {**settings.STORAGES, "default": stored}
    monkeypatch.delenv("CELERY_BROKER_URL", raising=False)  # Celery would obey it before our settings
    monkeypatch.setattr("shopfloor.jobs.queue.app", make_app(f"filesystem://{tmp_path / 'broker'}"))


def pytest_terminal_summary(terminalreporter):
    """How many cells of the permission table were asked, and steps walked from which seeds, whichever process did it."""
    passed = terminalreporter.stats.get("passed", [])
    told = [each for report in passed for each in report.user_properties]
    if cells := sum(value for name, value in told if name == "cells"):
        terminalreporter.write_line(f"permission table: {cells} cells")
    if walked := dict(value for name, value in told if name == "walked"):
        seeds = ", ".join(str(seed) for seed in sorted(walked))
        terminalreporter.write_line(f"walks: {sum(walked.values())} steps, from the seeds {seeds}")
