"""What is done on a run: begun, a step on and off, readings, answers, corrected, ended, broken off."""

from collections.abc import Callable, Mapping
from uuid import UUID

from django.contrib import messages
from django.forms import Form
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from engines.testbench import queries, services
from engines.testbench.forms import AnswerForm, BeginForm, BreakOffForm, CorrectForm, EndForm, ReadForm, StepForm
from engines.testbench.models import Run
from engines.testbench.views.pages import run_page, runs_page
from engines.testbench.views.refusals import REFUSED, status_of
from engines.visits.queries import visible_visits
from shopfloor.people.errors import Refused
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.people.services import confirm_password
from shopfloor.receipts.posts import receipted

UNREADABLE = "The form was not filled in as it must be. Look at it again."


@needs(Permission.RUN_ENGINES)
@require_POST
@receipted
def begin(request: PersonRequest, pk: UUID) -> HttpResponse:
    visit = get_object_or_404(visible_visits(request.user), pk=pk)
    form = BeginForm(request.POST)
    if not form.is_valid():
        return runs_page(request, visit, 422, form=form)
    try:
        run = services.begin_run(visit=visit, by=request.user, at=timezone.now())
    except REFUSED as refused:
        return runs_page(request, visit, status_of(refused), str(refused))
    return redirect("testbench:run", run.pk)


@needs(Permission.RUN_ENGINES)
@require_POST
@receipted
def step_on(request: PersonRequest, pk: UUID) -> HttpResponse:
    run, form = _run(pk), StepForm(request.POST)
    if not form.is_valid():
        return run_page(request, run, 422, UNREADABLE)
    step = form.cleaned_data["step"]
    return _act(request, run, lambda: services.begin_step(run=run, step=step, by=request.user, at=timezone.now()))


@needs(Permission.RUN_ENGINES)
@require_POST
@receipted
def step_off(request: PersonRequest, pk: UUID) -> HttpResponse:
    run, form = _run(pk), StepForm(request.POST)
    if not form.is_valid():
        return run_page(request, run, 422, UNREADABLE)
    step = form.cleaned_data["step"]
    return _act(request, run, lambda: services.end_step(run=run, step=step, by=request.user, at=timezone.now()))


@needs(Permission.RUN_ENGINES)
@require_POST
@receipted
def read_at(request: PersonRequest, pk: UUID) -> HttpResponse:
    run = _run(pk)
    step = request.POST.get("step", "")[:60]
    form = ReadForm(request.POST, schedule=queries.schedule_of(run.visit), step=step, auto_id="id_%s" if step else "id_oil_%s")
    kept: dict[str, Form] = {"read_form" if step else "oil_form": form}
    if not form.is_valid():
        return run_page(request, run, 422, UNREADABLE, forms=kept)
    typed = form.typed()
    return _act(
        request,
        run,
        lambda: services.read(run=run, step=step, typed=typed, by=request.user, at=timezone.now()),
        kept,
    )


@needs(Permission.RUN_ENGINES)
@require_POST
@receipted
def answer_it(request: PersonRequest, pk: UUID) -> HttpResponse:
    run, form = _run(pk), AnswerForm(request.POST)
    if not form.is_valid():
        return run_page(request, run, 422, "Answer the question with yes or no.")
    given = form.cleaned_data
    said = {"code": given["code"], "yes": given["yes"] == "yes", "words": given["words"]}
    return _act(request, run, lambda: services.answer(run=run, **said, by=request.user, at=timezone.now()))


@needs(Permission.RUN_ENGINES)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def correct_it(request: PersonRequest, pk: UUID) -> HttpResponse:
    reading = get_object_or_404(queries.typed_readings(), pk=pk)
    form = CorrectForm(request.POST) if request.method == "POST" else CorrectForm()
    status = 422 if form.is_bound else 200
    if form.is_valid():
        try:
            services.correct(reading=reading, **form.cleaned_data, by=request.user, at=timezone.now())
        except REFUSED as refused:
            form.add_error(None, str(refused))
            status = status_of(refused)
        else:
            messages.success(request, "Corrected; the earlier value stays in the record.")
            return redirect("testbench:run", reading.run_id)
    context = {"reading": reading, "run": reading.run, "visit": reading.run.visit, "form": form}
    return render(request, "testbench/correct.html", context, status=status)


@needs(Permission.RUN_ENGINES)
@require_POST
def end(request: PersonRequest, pk: UUID) -> HttpResponse:
    run, form = _run(pk), EndForm(request.POST)
    if not form.is_valid():
        return run_page(request, run, 422, forms={"end_form": form})
    try:
        # Before the receipt: a try at a password is counted whatever becomes of the act.
        confirm_password(password=form.cleaned_data["password"], by=request.user, at=timezone.now())
    except Refused as refused:
        form.add_error("password", str(refused))
        return run_page(request, run, refused.status, forms={"end_form": form})
    return _end_once(request, run=run, seen=form.cleaned_data["seen"])


@receipted
def _end_once(request: PersonRequest, *, run: Run, seen: str) -> HttpResponse:
    return _act(request, run, lambda: services.end_run(run=run, seen_sha256=seen, by=request.user, at=timezone.now()))


@needs(Permission.RUN_ENGINES)
@require_POST
@receipted
def abort(request: PersonRequest, pk: UUID) -> HttpResponse:
    run, form = _run(pk), BreakOffForm(request.POST, auto_id="id_break_%s")
    if not form.is_valid():
        return run_page(request, run, 422, forms={"break_form": form})
    reason, fault = form.cleaned_data["reason"], form.cleaned_data["fault"] == "engine"
    return _act(
        request,
        run,
        lambda: services.break_off(run=run, reason=reason, engine_at_fault=fault, by=request.user, at=timezone.now()),
        {"break_form": form},
    )


def _run(pk: UUID) -> Run:
    return get_object_or_404(queries.runs(), pk=pk)


def _act(request: PersonRequest, run: Run, act: Callable[[], object], forms: Mapping[str, Form] | None = None) -> HttpResponse:
    try:
        act()
    except REFUSED as refused:
        return run_page(request, _run(run.pk), status_of(refused), str(refused), forms=forms)
    return redirect("testbench:run", run.pk)
