"""Orders that are open, and one order on its way: sent, back with its papers or without them, or withdrawn."""

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.forms import Form
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from engines.parts.errors import PartRefused
from engines.vendors import queries, services
from engines.vendors.errors import VendorRefused
from engines.vendors.forms import BackForm, Beside, SendForm, WithdrawForm, WithoutForm
from engines.vendors.models import OutsideWork
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

PAGE = 50


@needs(Permission.SEE_VENDORS)
@require_safe
def orders(request: PersonRequest) -> HttpResponse:
    page = Paginator(queries.open_orders(), PAGE).get_page(request.GET.get("page"))
    return render(request, "vendors/orders.html", {"page": page, "orders": page.object_list, "today": timezone.localdate()})


@needs(Permission.SEE_VENDORS)
@require_safe
def order(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, _found(pk))


@needs(Permission.SEND_OUT)
@require_POST
@receipted
def send(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _found(pk)
    return _act(request, shown, "send_form", SendForm(request.POST), services.send, "Sent.")


@needs(Permission.SEND_OUT)
@require_POST
@receipted
def withdraw(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _found(pk)
    return _act(request, shown, "withdraw_form", WithdrawForm(request.POST), services.withdraw, "Withdrawn.")


@needs(Permission.SEND_OUT)
@require_POST
@receipted
def back(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _found(pk)
    form = BackForm(request.POST, request.FILES, order=shown)
    return _act(request, shown, "back_form", form, services.receive_back, "Back. An inspector has to look at it.")


@needs(Permission.SEND_OUT)
@require_POST
@receipted
def without(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown, form = _found(pk), WithoutForm(request.POST)
    return _act(request, shown, "without_form", form, services.receive_back, "Back. An inspector has to look at it.")


def _found(pk: UUID) -> OutsideWork:
    return get_object_or_404(queries.orders(), pk=pk)


def _act(
    request: PersonRequest, shown: OutsideWork, name: str, form: Beside, act: Callable[..., object], done: str
) -> HttpResponse:
    if not form.is_valid():
        return _page(request, shown, 422, **{name: form})
    try:
        act(order=shown, **form.given(), by=request.user, at=timezone.now())
    except (VendorRefused, PartRefused) as refused:
        form.add_error(None, str(refused))
        return _page(request, _found(shown.pk), refused.status, **{name: form})
    messages.success(request, done)
    return redirect("vendors:order", shown.pk)


def _page(request: PersonRequest, shown: OutsideWork, status: int = 200, **forms: Form) -> HttpResponse:
    context = {
        "order": shown,
        "late": shown.is_late_on(timezone.localdate()),
        "send_form": SendForm(),
        "withdraw_form": WithdrawForm(),
        "back_form": BackForm(order=shown),
        "without_form": WithoutForm(),
        **forms,
    }
    return render(request, "vendors/order.html", context, status=status)
