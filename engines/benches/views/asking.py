"""The customer is asked about more work, sees what it is about, and answers; the shop may take a request back."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from engines.benches.confirming import refusal_of
from engines.benches.forms import AnswerForm, AskForm, WithdrawForm
from engines.benches.queries.asking import files_of, photos_to_show, stored
from engines.benches.refusals import REFUSED, status_of
from engines.benches.views.discrepancies import page as discrepancy_page
from engines.inspection import queries
from engines.inspection.facts import discrepancies_of
from engines.inspection.models import Said, WorkAsked
from engines.inspection.offers import work_offered
from engines.inspection.services import Asked, answer, ask_customer, withdraw
from engines.inspection.standing import Kind
from measurements.readings.shown import figures
from shopfloor.documents.files import read
from shopfloor.documents.sending import attachment
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.ASK_CUSTOMER)
@require_POST
@receipted
def ask(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.discrepancies(), pk=pk)
    photos = photos_to_show(shown)
    form = AskForm(request.POST, kinds=work_offered(shown), photos=photos.items())
    if not form.is_valid():
        return discrepancy_page(request, shown, 422, ask_form=form)
    given = dict(form.cleaned_data)
    asked = Asked(kind=Kind(given.pop("kind")), photos=files_of(given.pop("photos", [])), **given)
    try:
        made = ask_customer(discrepancy=shown, asked=asked, by=request.user, at=timezone.now())
    except REFUSED as refused:
        return discrepancy_page(request, shown, status_of(refused), str(refused), ask_form=form)
    messages.success(request, "Asked. Work on it waits for the answer.")
    return redirect("benches:request", made.pk)


@needs(Permission.SEE_VISITS)
@require_safe
def asked(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, _visible(request, pk))


@needs(Permission.SEE_VISITS)
@require_safe
def photo(request: PersonRequest, pk: UUID, sha256: str) -> HttpResponseBase:
    found = get_object_or_404(stored(_visible(request, pk)), sha256=sha256)
    return attachment(read(found), f"photo-{sha256[:12]}.jpg", found.media_type)


@needs(Permission.ANSWER_REQUESTS)
@require_POST
def answer_it(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown, form = _visible(request, pk), AnswerForm(request.POST)
    if status := refusal_of(request, form):
        return _page(request, shown, status, answer_form=form)
    return _answer_once(request, shown=shown, form=form)


@receipted
def _answer_once(request: PersonRequest, *, shown: WorkAsked, form: AnswerForm) -> HttpResponse:
    said = Said(form.cleaned_data["said"])
    try:
        answer(request=shown, said=said, words=form.cleaned_data["words"], by=request.user, at=timezone.now())
    except REFUSED as refused:
        form.add_error(None, str(refused))
        return _page(request, shown, status_of(refused), answer_form=form)
    messages.success(request, f"The shop knows: you {said} it.")
    return redirect("benches:request", shown.pk)


@needs(Permission.ASK_CUSTOMER)
@require_POST
@receipted
def take_back(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown, form = _visible(request, pk), WithdrawForm(request.POST)
    if not form.is_valid():
        return _page(request, shown, 422, withdraw_form=form)
    try:
        withdraw(request=shown, words=form.cleaned_data["words"], by=request.user, at=timezone.now())
    except REFUSED as refused:
        form.add_error(None, str(refused))
        return _page(request, shown, status_of(refused), withdraw_form=form)
    messages.success(request, "Taken back.")
    return redirect("benches:request", shown.pk)


def _visible(request: PersonRequest, pk: UUID) -> WorkAsked:
    return get_object_or_404(queries.visible_requests(request.user), pk=pk)


def _page(
    request: PersonRequest,
    shown: WorkAsked,
    status: int = 200,
    answer_form: AnswerForm | None = None,
    withdraw_form: WithdrawForm | None = None,
) -> HttpResponse:
    found = discrepancies_of(shown.visit).get(pk=shown.discrepancy_id)
    now = next(each for each in found.asked if each.pk == shown.pk)
    context = {
        "asked": now,
        "visit": shown.visit,
        "discrepancy": found,
        "strip": figures(found.reading).strip if found.reading else None,
        "answers": [(Said.APPROVED, "Approve the work"), (Said.REFUSED, "Refuse the work")],
        "answer_form": answer_form or AnswerForm(),
        "withdraw_form": withdraw_form or WithdrawForm(),
        "is_own": request.user.customer_id == shown.visit.customer_id,
    }
    return render(request, "benches/request.html", context, status=status)
