"""The page of an operation: what the data ask, what was entered, what is missing, and the signatures."""

from collections.abc import Callable, Iterable
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.forms import Form
from django.http import Http404, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from engines.benches.authorised import why_not_accepting, why_not_working
from engines.benches.confirming import refusal_of
from engines.benches.forms import ReasonForm, SignForm
from engines.benches.refusals import REFUSED, status_of
from engines.inspection.models import Discrepancy
from engines.inspection.standing import State
from engines.steps.kinds.figures import DrawnLine
from engines.steps.registry import step_of
from engines.steps.work import Work
from engines.traveler import queries
from engines.traveler.meaning import meaning_of_next
from engines.traveler.models import Operation
from engines.traveler.services import accept, enter, reopen, sign
from engines.traveler.services.signing import sha256_of
from engines.traveler.work import shown_text, still_missing, waits_for, work_on
from shopfloor.documents.files import read
from shopfloor.documents.models import StoredFile
from shopfloor.documents.sending import attachment
from shopfloor.people.permissions import Permission, PersonRequest, may, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.SEE_WORK)
@require_safe
def operation(request: PersonRequest, pk: UUID) -> HttpResponse:
    return page(request, get_object_or_404(queries.operations(), pk=pk))


@needs(Permission.DO_WORK)
@require_POST
@receipted
def enter_at(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.operations(), pk=pk)
    work = work_on(shown.area.visit, shown, timezone.now(), request.user)
    form = step_of(shown.kind).form(work, request.POST, request.FILES)
    if form is None:
        return page(request, shown, 409, refused="Nothing is left to be entered at this operation.")
    if not form.is_valid():
        return page(request, shown, 422, form=form)
    try:
        enter(operation=shown, given=form.cleaned_data, by=request.user, at=timezone.now())
    except REFUSED as refused:
        form.add_error(None, str(refused))
        return page(request, shown, status_of(refused), form=form)
    messages.success(request, "Kept.")
    return redirect("benches:operation", shown.pk)


@needs(Permission.DO_WORK)
@require_POST
def sign_it(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _signed(request, pk, sign, "Signed.")


@needs(Permission.ACCEPT_WORK)
@require_POST
def accept_it(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _signed(request, pk, accept, "Accepted.")


@needs(Permission.ACCEPT_WORK)
@require_POST
@receipted
def open_again(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.operations(), pk=pk)
    form = ReasonForm(request.POST)
    if not form.is_valid():
        return page(request, shown, 422, reason_form=form)
    try:
        opened = reopen(operation=shown, reason=form.cleaned_data["reason"], by=request.user, at=timezone.now())
    except REFUSED as refused:
        return page(request, shown, status_of(refused), refused=str(refused))
    messages.success(request, f"Open again: {', '.join(each.title for each in opened) or 'nothing was signed'}.")
    return redirect("benches:operation", shown.pk)


@needs(Permission.SEE_WORK)
@require_safe
def evidence(request: PersonRequest, pk: UUID, sha256: str) -> HttpResponseBase:
    """A photo that an entry of this operation names."""
    shown = get_object_or_404(queries.operations(), pk=pk)
    if not any(entry.content.get("photo") == sha256 for entry in shown.entries.all()):
        raise Http404("No entry of this operation has that photo.")
    file = get_object_or_404(StoredFile, sha256=sha256)
    return attachment(read(file), f"photo-{sha256[:12]}.jpg", file.media_type)


def _signed(request: PersonRequest, pk: UUID, act: Callable[..., Operation], done: str) -> HttpResponse:
    shown = get_object_or_404(queries.operations(), pk=pk)
    form = SignForm(request.POST)
    if status := refusal_of(request, form):
        return page(request, shown, status, sign_form=form)
    return _act_once(request, shown=shown, act=act, seen=form.cleaned_data["seen"], done=done)


@receipted
def _act_once(request: PersonRequest, *, shown: Operation, act: Callable[..., Operation], seen: str, done: str) -> HttpResponse:
    try:
        act(operation=shown, seen_sha256=seen, by=request.user, at=timezone.now())
    except REFUSED as refused:
        return page(request, shown, status_of(refused), refused=str(refused))
    messages.success(request, done)
    return redirect("benches:operation", shown.pk)


def page(
    request: PersonRequest,
    shown: Operation,
    status: int = 200,
    *,
    form: Form | None = None,
    sign_form: SignForm | None = None,
    reason_form: ReasonForm | None = None,
    refused: str = "",
) -> HttpResponse:
    step, work = step_of(shown.kind), work_on(shown.area.visit, shown, timezone.now(), request.user)
    waits = waits_for(shown.area.visit, shown) if shown.signed_at is None else []
    missing = still_missing(shown, work)
    not_yours = why_not_working(request.user, work)
    can_enter = not waits and not not_yours and shown.signed_at is None
    lines = step.lines(work)
    context: dict[str, Any] = {
        **lines,
        "operation": shown,
        "visit": shown.area.visit,
        "planned": work.operation,
        "caution": _caution(work.data, work.operation.caution),
        "step": step,
        "waits": waits,
        "missing": missing,
        "not_yours": not_yours,
        "not_acceptor": why_not_accepting(request.user, shown, work),
        "can_enter": can_enter,
        "form": form or (step.form(work) if can_enter else None),
        "sign_form": sign_form or SignForm(),
        "meaning": meaning_of_next(shown),
        "seen": sha256_of(shown_text(shown, work)),
        "reason_form": reason_form or ReasonForm(),
        "signatures": queries.signatures_of(shown),
        "reopenings": queries.reopenings_of(shown),
        "enter_at": reverse("benches:take", args=[shown.pk]) if can_measure(request, shown, waits, not_yours) else "",
        "photos_at": f"{reverse('benches:operation', args=[shown.pk])}photos/",
        "not_good": _not_good(work, lines.get("lines", [])),
        "refused": refused,
    }
    return render(request, "benches/operation.html", context, status=status)


def can_measure(request: PersonRequest, shown: Operation, waits: list[str], not_yours: str) -> bool:
    """A signed operation may still be read again after a rework; everything else waits its turn."""
    return may(request.user, Permission.DO_WORK) and not not_yours and (shown.signed_at is not None or not waits)


def _not_good(work: Work, lines: Iterable[DrawnLine]) -> list[tuple[DrawnLine, Discrepancy | None]]:
    """Lines read and not good, each with the discrepancy that was raised from it."""
    raised = {each.reading_id: each for each in work.now.discrepancies if each.reading_id}
    return [(each, raised.get(each.reading.pk)) for each in lines if each.reading and each.standing.state != State.GOOD]


def _caution(data: Any, caution: str) -> str:
    """The words of a caution that the operation names by its code, or its own words."""
    return next((each.words for each in data.cautions if each.code == caution), caution)
