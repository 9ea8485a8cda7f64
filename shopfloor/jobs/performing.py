"""One job from claim to end, inside a worker process."""

import logging
from uuid import UUID

from django.utils import timezone

from shopfloor.jobs import services
from shopfloor.jobs.heartbeat import Heartbeat
from shopfloor.jobs.kinds import JobRefused, Payload, Progress, job_kind
from shopfloor.jobs.models import Job

logger = logging.getLogger(__name__)
BROKE_OFF = "Something went wrong that nobody foresaw ({error}). Try again; if it fails again, call who runs the site."


class LeaseLost(Exception):
    """Another worker holds this job now; whatever this one still does is for nothing."""


def perform(job_id: UUID) -> None:
    job = services.claim(job_id=job_id, at=timezone.now())
    if job is None:
        return
    try:
        with Heartbeat(job):
            result = _work(job)
        if not services.finish(job=job, result=result, at=timezone.now()):
            raise LeaseLost
    except LeaseLost:
        logger.warning("Job %s was taken over while attempt %s ran; its result is dropped.", job.pk, job.attempt)
    except JobRefused as refusal:
        services.fail(job=job, reason=str(refusal), at=timezone.now())
    except Exception as error:
        logger.exception("Job %s broke off in attempt %s.", job.pk, job.attempt)
        services.break_off(job=job, reason=BROKE_OFF.format(error=type(error).__name__), at=timezone.now())


def _work(job: Job) -> Payload:
    return job_kind(job.kind).work(job.payload, _progress_of(job))


def _progress_of(job: Job) -> Progress:
    def progress(done: int, total: int) -> None:
        if not services.note_progress(job=job, done=done, total=total):
            raise LeaseLost

    return progress
