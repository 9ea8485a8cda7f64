"""Pages of the gauge register."""

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.forms import Form
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from measurements.gauges import queries, services
from measurements.gauges.errors import GaugeRefused
from measurements.gauges.forms import CalibrationForm, GaugeForm, RetireForm
from measurements.gauges.models import Gauge
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

PAGE = 50


@needs(Permission.SEE_GAUGES)
@require_safe
def gauges(request: PersonRequest) -> HttpResponse:
    page = Paginator(queries.gauges(), PAGE).get_page(request.GET.get("page"))
    listed = queries.listed(list(page), timezone.localdate())
    return render(request, "gauges/gauges.html", {"page": page, "listed": listed})


@needs(Permission.KEEP_GAUGES)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def add(request: PersonRequest) -> HttpResponse:
    form = GaugeForm(request.POST) if request.method == "POST" else GaugeForm()
    if form.is_valid():
        try:
            gauge = services.add_gauge(**form.cleaned_data, by=request.user, at=timezone.now())
        except GaugeRefused as refused:
            form.add_error(None, str(refused))
            return render(request, "gauges/add.html", {"form": form}, status=refused.status)
        return redirect("gauges:gauge", gauge.pk)
    return render(request, "gauges/add.html", {"form": form}, status=422 if form.is_bound else 200)


@needs(Permission.SEE_GAUGES)
@require_safe
def gauge(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.gauges(), pk=pk)
    return _page(request, shown, CalibrationForm(gauge=shown), RetireForm(), 200)


@needs(Permission.KEEP_GAUGES)
@require_POST
@receipted
def calibrate(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.gauges(), pk=pk)
    form = CalibrationForm(request.POST, gauge=shown)
    return _act(request, shown, form, services.book_calibration, "Calibration booked.", form, RetireForm())


@needs(Permission.KEEP_GAUGES)
@require_POST
@receipted
def retire(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.gauges(), pk=pk)
    form = RetireForm(request.POST)
    return _act(request, shown, form, services.retire_gauge, "Gauge retired.", CalibrationForm(gauge=shown), form)


def _act(
    request: PersonRequest, shown: Gauge, form: Form, act: Callable[..., object], done: str, calibration: Form, retirement: Form
) -> HttpResponse:
    if not form.is_valid():
        return _page(request, shown, calibration, retirement, 422)
    try:
        act(gauge=shown, **form.cleaned_data, by=request.user, at=timezone.now())
    except GaugeRefused as refused:
        form.add_error(None, str(refused))
        return _page(request, shown, calibration, retirement, refused.status)
    messages.success(request, done)
    return redirect("gauges:gauge", shown.pk)


def _page(request: PersonRequest, shown: Gauge, calibration: Form, retirement: Form, status: int) -> HttpResponse:
    (listed,) = queries.listed([shown], timezone.localdate())
    context = {
        "gauge": shown,
        "standing": listed.standing,
        "history": queries.history(shown),
        "calibration_form": calibration,
        "retire_form": retirement,
    }
    return render(request, "gauges/gauge.html", context, status=status)
