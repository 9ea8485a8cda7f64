"""The worker: `celery -A shopfloor.celery worker`. Nothing else imports this file."""

import os

import django

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopfloor.settings")
django.setup()

from shopfloor.jobs.queue import app  # noqa: E402

__all__ = ["app"]
