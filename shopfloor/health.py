"""`/health/`: whether each part that the shop depends on answers. Public, so it says what, never where or why."""

import logging
from collections.abc import Callable

from django.db import connection
from django.http import HttpRequest, JsonResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from shopfloor.documents import files
from shopfloor.jobs import queries as jobs
from shopfloor.jobs import queue
from shopfloor.ledger.append_only import missing_triggers
from shopfloor.people.permissions import public

logger = logging.getLogger(__name__)


def database() -> bool:
    with connection.cursor() as cursor:
        cursor.execute("SELECT 1")
        return bool(cursor.fetchone() == (1,))


def triggers() -> bool:
    return not missing_triggers(connection)


def worker() -> bool:
    return jobs.worker_is_alive(timezone.now())


CHECKS: dict[str, tuple[Callable[[], bool], str, str]] = {
    "database": (database, "The database answers.", "The database does not answer. Start it, or check DATABASE_URL."),
    "triggers": (triggers, "The record is protected.", "Triggers that protect the record are missing. Run manage.py migrate."),
    "broker": (queue.answers, "The broker answers.", "The broker does not answer. Papers wait until it is back."),
    "worker": (worker, "A worker is at work.", "No worker gives a sign of life. Start one; papers wait until then."),
    "storage": (files.can_store, "Files can be stored.", "Files cannot be stored. Check STORAGE_URL and the room left on it."),
}


@public
@require_safe
def health(request: HttpRequest) -> JsonResponse:
    found = {name: _finding(name, *check) for name, check in CHECKS.items()}
    well = all(finding["ok"] for finding in found.values())
    return JsonResponse({"ok": well, **found}, status=200 if well else 503, headers={"Cache-Control": "no-store"})


def _finding(name: str, check: Callable[[], bool], good: str, bad: str) -> dict[str, object]:
    try:
        ok = check()
    except Exception:  # whatever a driver raises is the finding
        logger.exception("The check of %s failed.", name)
        ok = False
    return {"ok": ok, "sentence": good if ok else bad}
