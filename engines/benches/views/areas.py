"""The page of an area: its operations by stage, what holds it back, and its moves."""

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from engines.benches.forms import BackForm, BenchForm
from engines.benches.refusals import REFUSED, status_of
from engines.benches.working import not_approved, stages_of
from engines.release.queries import blockers_of, situation_of
from engines.release.services import advance, send_back
from engines.visits.models import VisitArea
from engines.visits.queries import areas
from engines.visits.services import move_to_bench
from engines.visits.stages import earlier_stages, next_stage
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.SEE_WORK)
@require_safe
def area(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, get_object_or_404(areas(), pk=pk))


@needs(Permission.MOVE_AREAS)
@require_POST
@receipted
def move_on(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(areas(), pk=pk)
    before = request.POST.get("before", "")
    return _act(request, shown, lambda: advance(area=shown, before=before, by=request.user, at=timezone.now()))


@needs(Permission.MOVE_AREAS)
@require_POST
@receipted
def move_back(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(areas(), pk=pk)
    form = BackForm(request.POST, stages=earlier_stages(shown.stage))
    if not form.is_valid():
        return _page(request, shown, 422, back_form=form)
    before = request.POST.get("before", "")
    return _act(
        request, shown, lambda: send_back(area=shown, before=before, **form.cleaned_data, by=request.user, at=timezone.now())
    )


@needs(Permission.MOVE_AREAS)
@require_POST
@receipted
def rebench(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(areas(), pk=pk)
    form = BenchForm(request.POST)
    if not form.is_valid():
        return _page(request, shown, 422, bench_form=form)
    return _act(
        request, shown, lambda: move_to_bench(area=shown, bench=form.cleaned_data["bench"], by=request.user, at=timezone.now())
    )


def _act(request: PersonRequest, shown: VisitArea, act: Callable[[], VisitArea]) -> HttpResponse:
    try:
        moved = act()
    except REFUSED as refused:
        return _page(request, shown, status_of(refused), refused=str(refused))
    messages.success(request, f"{moved.name} stands in {moved.stage} ({moved.bench}).")
    return redirect("benches:area", moved.pk)


def _page(
    request: PersonRequest,
    shown: VisitArea,
    status: int = 200,
    refused: str = "",
    bench_form: BenchForm | None = None,
    back_form: BackForm | None = None,
) -> HttpResponse:
    situation = situation_of(shown)
    earlier = earlier_stages(shown.stage)
    context = {
        "area": shown,
        "visit": shown.visit,
        "stages": stages_of(situation),
        "asked": not_approved(situation),
        "blockers": blockers_of(situation),
        "next_stage": next_stage(shown.stage),
        "refused": refused,
        "bench_form": bench_form or BenchForm(initial={"bench": shown.bench}),
        "back_form": (back_form or BackForm(stages=reversed(earlier))) if earlier else None,
    }
    return render(request, "benches/area.html", context, status=status)
