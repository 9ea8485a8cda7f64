"""What the health page asks about jobs."""

from datetime import datetime, timedelta

from django.conf import settings

from shopfloor.jobs.models import WorkerPulse


def worker_is_alive(at: datetime) -> bool:
    """Whether some worker has given a sign of life within three sweeps."""
    return WorkerPulse.objects.filter(beat_at__gt=at - timedelta(seconds=3 * settings.JOB_SWEEP_SECONDS)).exists()
