"""The processes that the product is made of, as the commands that start them."""

import os
import sys
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

AS_ROOT = "ignore:You're running the worker with superuser"  # Celery fears pickled messages; ours are a job's number in JSON


@dataclass(frozen=True)
class Process:
    name: str
    command: tuple[str, ...]


def web(port: int) -> Process:
    """Each process has one thread that runs our code; idle connections wait outside of it and delay nobody."""
    return _python(
        "web", "granian", "shopfloor.wsgi:application", "--interface", "wsgi",
        "--host", settings.WEB_HOST, "--port", str(port),
        "--workers", str(settings.WEB_PROCESSES), "--blocking-threads", "1",
        "--respawn-failed-workers", "--respawn-interval", "1", "--workers-kill-timeout", "10",
        "--no-ws", "--log-level", "warning",
    )  # fmt: skip


def worker() -> Process:
    return _celery("worker", "--loglevel", "warning", "--without-gossip", "--without-mingle")


def scheduler() -> Process:
    return _celery("beat", "--loglevel", "warning", "--pidfile=", "--schedule", str(settings.SCHEDULE_FILE))


def environment() -> dict[str, str]:
    """Ours, with a folder for caches where the home folder of the account is missing or not its own."""
    home = Path(os.environ.get("HOME", "/nonexistent"))
    if os.access(home, os.W_OK):
        return dict(os.environ)
    return {**os.environ, "XDG_CACHE_HOME": str(settings.DATA_DIR / "cache")}


def _celery(*arguments: str) -> Process:
    return _python(arguments[0], "celery", "--quiet", "-A", "shopfloor.celery", *arguments)


def _python(name: str, module: str, *arguments: str) -> Process:
    return Process(name, (sys.executable, "-W", AS_ROOT, "-m", module, *arguments))
