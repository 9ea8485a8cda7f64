"""The sweep inside every worker: a thread of its main process."""

import logging
import os
import socket
import threading
from typing import Any

from celery import signals
from django.conf import settings
from django.db import DatabaseError, connection
from django.utils import timezone

from shopfloor.jobs import services

logger = logging.getLogger(__name__)

# The pool forks whenever it replaces a process. A child must never inherit an open connection (SQLite would lose its
# locks), so no fork happens during a pass, and a pass leaves no connection open.
_no_fork = threading.RLock()
os.register_at_fork(before=_no_fork.acquire, after_in_parent=_no_fork.release, after_in_child=_no_fork.release)


class Sweeper:
    """Sweeps and leaves a pulse, every `JOB_SWEEP_SECONDS`, until told to stop."""

    def __init__(self) -> None:
        self.worker = f"{socket.gethostname()}:{os.getpid()}"
        self.started_at = timezone.now()
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._run, name="sweep", daemon=True)

    def start(self) -> None:
        self._thread.start()

    def stop(self) -> None:
        self._over.set()
        self._thread.join(timeout=10)

    def _run(self) -> None:
        self._alone(self._pass)
        while not self._over.wait(settings.JOB_SWEEP_SECONDS):
            self._alone(self._pass)
        self._alone(lambda: services.rest(worker=self.worker))

    def _alone(self, act: Any) -> None:
        with _no_fork:
            try:
                act()
            except DatabaseError:
                logger.exception("The sweep could not reach the database; trying again.")
            finally:
                connection.close()

    def _pass(self) -> None:
        services.beat(worker=self.worker, started_at=self.started_at, at=timezone.now())
        services.sweep(at=timezone.now())


_sweeper: Sweeper | None = None


@signals.worker_ready.connect
def start_sweeping(**kwargs: Any) -> None:
    # Sent again after every reconnection to the broker.
    global _sweeper
    if _sweeper is None:
        _sweeper = Sweeper()
        _sweeper.start()


@signals.worker_shutdown.connect
def stop_sweeping(**kwargs: Any) -> None:
    global _sweeper
    if _sweeper is not None:
        _sweeper.stop()
        _sweeper = None
