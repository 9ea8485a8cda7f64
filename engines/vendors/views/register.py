"""The register: every vendor as it stands today; one with its approvals, suspensions and orders."""

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.forms import Form
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from engines.vendors import queries, services
from engines.vendors.errors import VendorRefused
from engines.vendors.forms import ApprovalForm, LiftForm, SuspendForm, VendorForm
from engines.vendors.models import Vendor
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

PAGE = 50


@needs(Permission.SEE_VENDORS)
@require_safe
def vendors(request: PersonRequest) -> HttpResponse:
    page = Paginator(queries.vendors(), PAGE).get_page(request.GET.get("page"))
    listed = queries.listed(page, timezone.localdate())
    return render(request, "vendors/vendors.html", {"page": page, "listed": listed})


@needs(Permission.KEEP_VENDORS)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def add(request: PersonRequest) -> HttpResponse:
    form = VendorForm(request.POST if request.method == "POST" else None)
    status = 422 if form.is_bound else 200
    if form.is_valid():
        try:
            made = services.add_vendor(**form.cleaned_data, by=request.user, at=timezone.now())
        except VendorRefused as refused:
            form.add_error(None, str(refused))
            status = refused.status
        else:
            messages.success(request, "In the register. Nothing goes there until its approval is entered.")
            return redirect("vendors:vendor", made.pk)
    return render(request, "vendors/add.html", {"form": form}, status=status)


@needs(Permission.SEE_VENDORS)
@require_safe
def vendor(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, get_object_or_404(queries.vendors(), pk=pk))


@needs(Permission.KEEP_VENDORS)
@require_POST
@receipted
def approve(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _act(request, pk, "approval_form", ApprovalForm(request.POST), services.approve, "Approved.")


@needs(Permission.KEEP_VENDORS)
@require_POST
@receipted
def suspend(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _act(request, pk, "suspend_form", SuspendForm(request.POST), services.suspend, "Suspended.")


@needs(Permission.KEEP_VENDORS)
@require_POST
@receipted
def lift(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _act(request, pk, "lift_form", LiftForm(request.POST), services.lift, "The suspension is lifted.")


def _act(request: PersonRequest, pk: UUID, name: str, form: Form, act: Callable[..., object], done: str) -> HttpResponse:
    shown = get_object_or_404(queries.vendors(), pk=pk)
    if not form.is_valid():
        return _page(request, shown, 422, **{name: form})
    try:
        act(vendor=shown, **form.cleaned_data, by=request.user, at=timezone.now())
    except VendorRefused as refused:
        form.add_error(None, str(refused))
        return _page(request, shown, refused.status, **{name: form})
    messages.success(request, done)
    return redirect("vendors:vendor", shown.pk)


def _page(request: PersonRequest, shown: Vendor, status: int = 200, **forms: Form) -> HttpResponse:
    (listed,) = queries.listed([shown], timezone.localdate())
    context = {
        "vendor": shown,
        "listed": listed,
        "approvals": queries.approvals_of(shown),
        "suspensions": queries.suspensions_of(shown),
        "orders": queries.orders_of(shown)[: PAGE * 2],
        "today": timezone.localdate(),
        "held": any(each.lifted_at is None for each in shown.suspensions.all()),
        "approval_form": ApprovalForm(),
        "suspend_form": SuspendForm(),
        "lift_form": LiftForm(),
        **forms,
    }
    return render(request, "vendors/vendor.html", context, status=status)
