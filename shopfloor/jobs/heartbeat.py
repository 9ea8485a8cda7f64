"""Extends the lease of a job while its work runs."""

import logging
import threading
from types import TracebackType

from django.conf import settings
from django.db import DatabaseError, connection
from django.utils import timezone

from shopfloor.jobs import services
from shopfloor.jobs.models import Job

logger = logging.getLogger(__name__)


class Heartbeat:
    """A thread of its own, because the work does not stop to think of its lease."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._run, name=f"heartbeat-{job.pk}", daemon=True)

    def __enter__(self) -> "Heartbeat":
        self._thread.start()
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self._over.set()
        self._thread.join()

    def _run(self) -> None:
        held = True
        while held and not self._over.wait(settings.JOB_LEASE_SECONDS / 3):
            held = self._beat()
        connection.close()

    def _beat(self) -> bool:
        try:
            return services.extend_lease(job=self.job, at=timezone.now())
        except DatabaseError:
            logger.exception("The lease of job %s could not be extended; trying again.", self.job.pk)
            connection.close()
            return True
