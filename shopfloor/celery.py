"""The worker and the scheduler: `celery -A shopfloor.celery worker` and `beat`. Nothing else imports this file."""

import os

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopfloor.settings")
django.setup()

from celery.schedules import crontab  # noqa: E402
from django.conf import settings  # noqa: E402

from shopfloor.jobs.queue import app  # noqa: E402

app.conf.imports = (*app.conf.imports, "shopfloor.auditing.tasks")
app.conf.update(timezone=settings.TIME_ZONE)
app.conf.beat_schedule = {
    "check the ledger": {"task": "shopfloor.auditing.check_ledger", "schedule": crontab(hour="2", minute="30")},
}

__all__ = ["app"]
