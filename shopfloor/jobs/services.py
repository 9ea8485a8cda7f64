"""Every change of a job, each a compare-and-set: who comes second changes nothing."""

from datetime import datetime, timedelta
from functools import partial
from uuid import UUID

from django.conf import settings
from django.db import transaction
from django.db.models import F, Q, QuerySet

from shopfloor.jobs import queue
from shopfloor.jobs.kinds import Payload, job_kind
from shopfloor.jobs.models import Job, WorkerPulse
from shopfloor.jobs.states import State, check_move
from shopfloor.people.models import Person

STOPPED = "The worker stopped in the middle of this, {attempts} times. Try again; if it stops again, call who runs the site."
SENT_AT_ONCE = 20


class NothingToRetry(Exception):
    """Only a job that has failed can be tried again."""


def request_job(*, kind: str, payload: Payload, by: Person | None, at: datetime) -> Job:
    """Write the job in the caller's transaction; its message leaves after commit. The caller writes the event."""
    job = Job.objects.create(
        kind=kind,
        payload=payload,
        attempts_allowed=job_kind(kind).attempts,
        requested_by=by,
        requested_at=at,
        queued_at=at,
    )
    transaction.on_commit(partial(send_or_leave_to_sweep, job.pk))
    return job


def retry_job(*, job: Job, by: Person, at: datetime) -> None:
    """Give a failed job its attempts once more. The caller writes the event."""
    more = F("attempts_allowed") + job_kind(job.kind).attempts
    failed = Job.objects.filter(pk=job.pk)
    if not _move(failed, State.FAILED, State.WAITING, attempts_allowed=more, reason="", finished_at=None, queued_at=at):
        raise NothingToRetry("This has not failed, or somebody has already tried again. Reload the page to see how it stands.")
    transaction.on_commit(partial(send_or_leave_to_sweep, job.pk))


def send_or_leave_to_sweep(job_id: UUID) -> bool:
    sent = queue.send(job_id)
    if not sent:
        Job.objects.filter(pk=job_id, state=State.WAITING).update(queued_at=None)
    return sent


def claim(*, job_id: UUID, at: datetime) -> Job | None:
    """The job, under a new attempt and lease; None when it is not waiting (any more)."""
    with transaction.atomic():
        waiting = Job.objects.filter(pk=job_id)
        lease = at + timedelta(seconds=settings.JOB_LEASE_SECONDS)
        changes = {"started_at": at, "heartbeat_at": at, "lease_until": lease, "progress_done": 0, "progress_total": 0}
        if not _move(waiting, State.WAITING, State.RUNNING, attempt=F("attempt") + 1, **changes):
            return None
        return Job.objects.get(pk=job_id)


def extend_lease(*, job: Job, at: datetime) -> bool:
    lease = at + timedelta(seconds=settings.JOB_LEASE_SECONDS)
    return bool(_held(job).filter(state=State.RUNNING).update(heartbeat_at=at, lease_until=lease))


def note_progress(*, job: Job, done: int, total: int) -> bool:
    return bool(_held(job).filter(state=State.RUNNING).update(progress_done=done, progress_total=total))


def finish(*, job: Job, result: Payload, at: datetime) -> bool:
    """Publish the result once; False when the attempt no longer holds the job, and then nothing is published."""
    with transaction.atomic():
        if not _move(_held(job), State.RUNNING, State.DONE, finished_at=at, lease_until=None, reason=""):
            return False
        job_kind(job.kind).publish(job, result, at)
    return True


def fail(*, job: Job, reason: str, at: datetime) -> bool:
    return _move(_held(job), State.RUNNING, State.FAILED, finished_at=at, lease_until=None, reason=reason)


def break_off(*, job: Job, reason: str, at: datetime) -> bool:
    """Put the job back for another attempt, or fail it when none is left. The sweep sends it again."""
    if job.attempt >= job.attempts_allowed:
        return fail(job=job, reason=reason, at=at)
    return _move(_held(job), State.RUNNING, State.WAITING, lease_until=None, reason=reason, queued_at=at)


def sweep(*, at: datetime) -> int:
    """Take back leases that ran out; send waiting jobs whose message seems lost. Returns how many were sent."""
    for job in Job.objects.filter(state=State.RUNNING, lease_until__lt=at):
        _take_back(job, at)
    return sum(1 for job in _to_send(at) if send_or_leave_to_sweep(job.pk))


def beat(*, worker: str, started_at: datetime, at: datetime) -> None:
    WorkerPulse.objects.update_or_create(
        worker=worker, defaults={"beat_at": at}, create_defaults={"started_at": started_at, "beat_at": at}
    )
    WorkerPulse.objects.filter(beat_at__lt=at - timedelta(days=1)).delete()


def rest(*, worker: str) -> None:
    """A worker that stops in order leaves no pulse behind."""
    WorkerPulse.objects.filter(worker=worker).delete()


def _take_back(job: Job, at: datetime) -> None:
    # A heartbeat may arrive between our look and this change: the lease is compared again in the same statement.
    expired = _held(job).filter(lease_until__lt=at)
    if job.attempt >= job.attempts_allowed:
        reason = STOPPED.format(attempts=job.attempt)
        _move(expired, State.RUNNING, State.FAILED, finished_at=at, lease_until=None, reason=reason)
    else:
        _move(expired, State.RUNNING, State.WAITING, lease_until=None, queued_at=None)


def _to_send(at: datetime) -> list[Job]:
    lost = Q(queued_at__isnull=True) | Q(queued_at__lt=at - timedelta(seconds=settings.JOB_RESEND_SECONDS))
    jobs = list(Job.objects.filter(lost, state=State.WAITING).order_by("requested_at")[:SENT_AT_ONCE])
    return [job for job in jobs if Job.objects.filter(lost, pk=job.pk, state=State.WAITING).update(queued_at=at)]


def _held(job: Job) -> QuerySet[Job]:
    return Job.objects.filter(pk=job.pk, attempt=job.attempt)


def _move(jobs: QuerySet[Job], old: State, new: State, **changes: object) -> bool:
    check_move(old, new)
    return bool(jobs.filter(state=old).update(state=new, **changes))
