"""A worker process of the product, as `make demo` starts it, and what can be done to it."""

import os
import signal
import subprocess
import sys
from pathlib import Path

from django.conf import settings
from django.db import connection

ROOT = Path(__file__).resolve().parents[2]


def database_url() -> str:
    """The test database, as an address; on PostgreSQL in the application's role."""
    if connection.vendor == "sqlite":
        return f"sqlite:///{connection.settings_dict['NAME']}"
    of = connection.settings_dict
    role = f"?options=-c%20role%3D{settings.DATABASE_APP_ROLE}" if settings.DATABASE_APP_ROLE else ""
    return f"postgresql://{of['USER']}:{of['PASSWORD']}@{of['HOST']}:{of['PORT']}/{of['NAME']}{role}"


class Worker:
    def __init__(self, name: str, home: Path, broker_url: str) -> None:
        self.log = home / f"{name}.log"
        given = {
            "DJANGO_SETTINGS_MODULE": "tests.settings_worker",
            "DATABASE_URL": database_url(),
            "CELERY_BROKER_URL": broker_url,
            "MAIN_JOURNAL_DATA": str(home),
            "STORAGE_URL": f"file://{home / 'files'}",
            "SLOW_JOBS_FOLDER": str(home),
            "JOB_LEASE_SECONDS": "2",
            "JOB_SWEEP_SECONDS": "1",
            "JOB_RESEND_SECONDS": "2",
        }
        command = [sys.executable, "-m", "celery", "-A", "shopfloor.celery", "worker", "--hostname", f"{name}@%h"]
        with self.log.open("wb") as log:
            self.process = subprocess.Popen(
                [*command, "--loglevel", "info", "--without-gossip", "--without-mingle"],
                cwd=ROOT,
                env={**os.environ, **given},
                stdout=log,
                stderr=log,
                start_new_session=True,
            )

    def is_ready(self) -> bool:
        assert self.process.poll() is None, self.said()
        return " ready." in self.said()

    def said(self) -> str:
        return self.log.read_text()

    def children(self) -> list[int]:
        return [int(pid) for pid in Path(f"/proc/{self.process.pid}/task/{self.process.pid}/children").read_text().split()]

    def kill_child(self) -> None:
        (child,) = self.children()
        os.kill(child, signal.SIGKILL)

    def signal_all(self, number: signal.Signals) -> None:
        os.killpg(self.process.pid, number)

    def close(self) -> None:
        if self.process.poll() is None:
            self.signal_all(signal.SIGKILL)
            self.process.wait()

    def stop_in_order(self) -> int:
        self.process.terminate()
        return self.process.wait(timeout=20)
