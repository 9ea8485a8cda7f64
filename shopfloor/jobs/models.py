"""Jobs, and the pulse of the workers."""

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from uuid_utils.compat import uuid7

from shopfloor.jobs.states import State


class Job(models.Model):
    """One piece of work for a worker. Changed only by compare-and-set on state and attempt, in `services`."""

    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    kind = models.CharField(max_length=60)
    payload = models.JSONField(default=dict)
    state = models.CharField(max_length=10, choices=State.choices, default=State.WAITING)
    attempt = models.PositiveSmallIntegerField(default=0)
    attempts_allowed = models.PositiveSmallIntegerField()
    lease_until = models.DateTimeField(null=True)
    heartbeat_at = models.DateTimeField(null=True)
    progress_done = models.PositiveIntegerField(default=0)
    progress_total = models.PositiveIntegerField(default=0)
    reason = models.TextField(blank=True)
    requested_by = models.ForeignKey(settings.AUTH_USER_MODEL, null=True, on_delete=models.PROTECT, related_name="+")
    requested_at = models.DateTimeField()
    queued_at = models.DateTimeField(null=True)
    started_at = models.DateTimeField(null=True)
    finished_at = models.DateTimeField(null=True)

    class Meta:
        indexes = [
            models.Index(fields=["state", "queued_at"], name="job_to_send"),
            models.Index(fields=["state", "lease_until"], name="job_lease"),
        ]
        constraints = [
            models.CheckConstraint(condition=Q(state__in=State.values), name="job_state_is_known"),
            models.CheckConstraint(
                condition=Q(state=State.RUNNING, lease_until__isnull=False, started_at__isnull=False, attempt__gte=1)
                | (~Q(state=State.RUNNING) & Q(lease_until__isnull=True)),
                name="job_runs_under_a_lease",
            ),
            models.CheckConstraint(
                condition=Q(state__in=[State.DONE, State.FAILED], finished_at__isnull=False)
                | Q(state__in=[State.WAITING, State.RUNNING], finished_at__isnull=True),
                name="job_end_has_a_moment",
            ),
            models.CheckConstraint(condition=~Q(state=State.FAILED) | ~Q(reason=""), name="job_failure_has_a_reason"),
            models.CheckConstraint(condition=Q(attempt__lte=F("attempts_allowed")), name="job_attempts_are_limited"),
        ]


class WorkerPulse(models.Model):
    """The last sign of life of one worker."""

    worker = models.CharField(max_length=120, unique=True)
    started_at = models.DateTimeField()
    beat_at = models.DateTimeField()
