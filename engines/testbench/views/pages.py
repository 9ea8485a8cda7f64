"""The runs of an engine, one run, and the part of its page that asks again and again while the run goes on."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django.forms import Form
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_safe

from engines.testbench import queries
from engines.testbench.findings import findings_text, sha256_of
from engines.testbench.forms import BeginForm, BreakOffForm, EndForm, LogForm, ReadForm, answer_forms
from engines.testbench.models import Run
from engines.testbench.shown import ALWAYS, cautions_of, shown
from engines.visits.models import Visit
from engines.visits.queries import visible_visits
from shopfloor.ledger.queries import newest_event
from shopfloor.people.permissions import Permission, PersonRequest, needs


@needs(Permission.SEE_WORK)
@require_safe
def runs(request: PersonRequest, pk: UUID) -> HttpResponse:
    return runs_page(request, get_object_or_404(visible_visits(request.user), pk=pk))


@needs(Permission.SEE_WORK)
@require_safe
def run(request: PersonRequest, pk: UUID) -> HttpResponse:
    return run_page(request, get_object_or_404(queries.runs(), pk=pk))


@needs(Permission.SEE_WORK)
@require_safe
def state(request: PersonRequest, pk: UUID) -> HttpResponse:
    """304 while nothing was entered, and the whole page anew when another step goes on than the one it was made for."""
    found = get_object_or_404(queries.runs(), pk=pk)
    etag = _etag(request, found)
    unchanged = get_conditional_response(request, etag=etag)
    if isinstance(unchanged, HttpResponse):
        return unchanged
    now = queries.run_now(found, timezone.now())
    if request.GET.get("at", "") != _at(found, now):
        return HttpResponse(status=200, headers={"HX-Refresh": "true"})
    answer = render(request, "testbench/state.html", _context(found, now, etag) | {"polled": True})
    answer["ETag"] = etag
    answer["Cache-Control"] = "private, no-cache"
    return answer


def runs_page(
    request: PersonRequest, visit: Visit, status: int = 200, refused: str = "", form: Form | None = None
) -> HttpResponse:
    area, schedule = queries.engine_area(visit), queries.schedule_of(visit)
    context = {
        "visit": visit,
        "area": area,
        "runs": queries.runs_of(visit),
        "steps": schedule.steps,
        "cautions": cautions_of(schedule.data),
        "always": ALWAYS,
        "counts": queries.run_that_counts(visit),
        "form": form or BeginForm(),
        "refused": refused,
    }
    return render(request, "testbench/runs.html", context, status=status)


def run_page(
    request: PersonRequest,
    found: Run,
    status: int = 200,
    refused: str = "",
    *,
    forms: Mapping[str, Form] | None = None,
    mistakes: tuple[str, ...] = (),
) -> HttpResponse:
    """The page; a form that was refused is given back as it was filled in."""
    now = queries.run_now(found, timezone.now())
    going = now.standing.going
    fresh: dict[str, Any] = {
        "read_form": ReadForm(schedule=now.schedule, step=going.code, standing=now.standing) if going else None,
        "oil_form": ReadForm(schedule=now.schedule, step="", standing=now.standing, auto_id="id_oil_%s"),
        "answer_forms": answer_forms(now.standing),
        "log_form": LogForm(),
        "end_form": EndForm(initial={"seen": sha256_of(findings_text(now.standing))}),
        "break_form": BreakOffForm(auto_id="id_break_%s"),
    }
    context = {**_context(found, now, _etag(request, found)), **fresh, **(forms or {}), "refused": refused, "mistakes": mistakes}
    return render(request, "testbench/run.html", context, status=status)


def _context(found: Run, now: queries.RunNow, etag: str) -> dict[str, Any]:
    return {
        "run": found,
        "visit": found.visit,
        "shown": shown(now),
        "standing": now.standing,
        "etag": etag,
        "at": _at(found, now),
    }


def _at(found: Run, now: queries.RunNow) -> str:
    """What decides which forms the page holds."""
    return found.outcome or (now.standing.going.code if now.standing.going else "between")


def _etag(request: PersonRequest, found: Run) -> str:
    """The record, the reader, how far logs are, and the clock as far as the page shows it: to the minute."""
    logs = [(str(log.pk), log.job.state, log.job.progress_done) for log in queries.logs_of(found) if log.job]
    clock = "" if found.ended_at else f"{timezone.now():%H%M}"
    return f'"{newest_event()}-{request.user.pk}-{clock}-{sha256_of(repr(logs))[:12]}"'
