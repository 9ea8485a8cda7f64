"""A change during a visit: an operation is added to an area with its reason, and approved or refused by another person."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from engines.benches.adding_forms import FROM_DATA, AddForm, RefuseForm
from engines.benches.confirming import refusal_of
from engines.benches.forms import PasswordForm
from engines.benches.refusals import REFUSED, status_of
from engines.steps.registry import step_of
from engines.traveler.authority import why_not_approving
from engines.traveler.errors import OperationMistaken
from engines.traveler.queries import operations_of
from engines.traveler.services import add_operation, approve_added, refuse_added
from engines.visits.models import AddedOperation, VisitArea
from engines.visits.queries import additions, areas
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.ADD_OPERATIONS)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def add(request: PersonRequest, pk: UUID) -> HttpResponse:
    area = get_object_or_404(areas(), pk=pk)
    form = AddForm(request.POST or None, stage=area.stage, operations=operations_of(area.visit))
    if not form.is_valid():
        return _form_page(request, area, form, 422 if form.is_bound else 200)
    given = {**form.given(), "area": area.code}
    basis, reason = given.pop("basis") == FROM_DATA, given.pop("reason")
    try:
        added = add_operation(visit=area.visit, given=given, from_data=basis, reason=reason, by=request.user, at=timezone.now())
    except REFUSED as refused:
        for sentence in refused.sentences if isinstance(refused, OperationMistaken) else [str(refused)]:
            form.add_error(None, sentence)
        return _form_page(request, area, form, status_of(refused))
    messages.success(request, "Added. It can be done once another authorised person has approved it.")
    return redirect("benches:addition", added.pk)


@needs(Permission.SEE_WORK)
@require_safe
def addition(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, get_object_or_404(additions(), pk=pk))


@needs(Permission.ADD_OPERATIONS)
@require_POST
def approve(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(additions(), pk=pk)
    form = PasswordForm(request.POST)
    if status := refusal_of(request, form):
        return _page(request, shown, status, password_form=form)
    return _approve_once(request, shown=shown)


@receipted
def _approve_once(request: PersonRequest, *, shown: AddedOperation) -> HttpResponse:
    try:
        approve_added(added=shown, by=request.user, at=timezone.now())
    except REFUSED as refused:
        return _page(request, shown, status_of(refused), str(refused))
    messages.success(request, "Approved: it is part of the traveler.")
    return redirect("benches:addition", shown.pk)


@needs(Permission.ADD_OPERATIONS)
@require_POST
@receipted
def refuse(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(additions(), pk=pk)
    form = RefuseForm(request.POST)
    if not form.is_valid():
        return _page(request, shown, 422, refuse_form=form)
    try:
        refuse_added(added=shown, words=form.cleaned_data["words"], by=request.user, at=timezone.now())
    except REFUSED as refused:
        return _page(request, shown, status_of(refused), str(refused))
    messages.success(request, "It is not to be done. The record keeps who asked for it, and why not.")
    return redirect("benches:addition", shown.pk)


def _form_page(request: PersonRequest, area: VisitArea, form: AddForm, status: int) -> HttpResponse:
    return render(request, "benches/add_operation.html", {"form": form, "area": area, "visit": area.visit}, status=status)


def _page(
    request: PersonRequest,
    shown: AddedOperation,
    status: int = 200,
    refused: str = "",
    password_form: PasswordForm | None = None,
    refuse_form: RefuseForm | None = None,
) -> HttpResponse:
    planned = shown.operation
    context = {
        "added": shown,
        "planned": planned,
        "kind": step_of(planned.kind).words,
        "visit": shown.visit,
        "area": get_object_or_404(shown.visit.areas, code=shown.area),
        "operation": operations_of(shown.visit).filter(code=shown.code).first(),
        "refused": refused,
        "not_approver": why_not_approving(request.user, shown.visit.pack.model.code, timezone.localdate()),
        "password_form": password_form or PasswordForm(),
        "refuse_form": refuse_form or RefuseForm(),
    }
    return render(request, "benches/addition.html", context, status=status)
