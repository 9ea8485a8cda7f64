"""Releasing an engine: what holds it up, the text that is signed, the signature with the password typed again."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from engines.benches.confirming import refusal_of
from engines.benches.forms import SignForm
from engines.benches.refusals import REFUSED, status_of
from engines.benches.release_forms import ReleaseForm
from engines.catalogue.queries import data_of
from engines.release.acts import acts_missing
from engines.release.authority import why_not
from engines.release.checking import statement_to_sign
from engines.release.errors import ReleaseHeld
from engines.release.queries import release_blockers, releases_of, serious_of, whole_engine
from engines.release.services import release
from engines.release.services.releasing import sha256_of
from engines.release.statement import Statement, text_of
from engines.visits.models import Visit, What
from engines.visits.queries import received, visible_visits
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.SEE_WORK)
@require_safe
def to_release(request: PersonRequest, pk: UUID) -> HttpResponse:
    visit = get_object_or_404(visible_visits(request.user), pk=pk)
    if visit.closed_at and (newest := releases_of(visit).last()):
        return redirect("benches:released", newest.pk)
    return _page(request, visit, form_for(visit, initial={"completed_on": timezone.localdate()}))


@needs(Permission.RELEASE)
@require_POST
def preview(request: PersonRequest, pk: UUID) -> HttpResponse:
    """The text as it would be signed. Nothing is written."""
    visit = get_object_or_404(visible_visits(request.user), pk=pk)
    form = form_for(visit, request.POST)
    if not form.is_valid():
        return _page(request, visit, form, 422)
    return _shown(request, visit, form)


@needs(Permission.RELEASE)
@require_POST
def sign_release(request: PersonRequest, pk: UUID) -> HttpResponse:
    visit = get_object_or_404(visible_visits(request.user), pk=pk)
    form, sign_form = form_for(visit, request.POST), SignForm(request.POST)
    if not form.is_valid():
        return _page(request, visit, form, 422)
    if status := refusal_of(request, sign_form):
        return _shown(request, visit, form, status, sign_form)
    return _release_once(request, visit=visit, form=form, seen=sign_form.cleaned_data["seen"])


@receipted
def _release_once(request: PersonRequest, *, visit: Visit, form: ReleaseForm, seen: str) -> HttpResponse:
    try:
        signed = release(visit=visit, given=form.given(), seen_sha256=seen, by=request.user, at=timezone.now())
    except REFUSED as refused:
        return _page(request, visit, form, status_of(refused), refused=refused)
    messages.success(request, f"Released as {signed.status}. Visit {visit.number} is closed.")
    return redirect("benches:released", signed.pk)


def form_for(visit: Visit, *data: object, **kwargs: object) -> ReleaseForm:
    return ReleaseForm(*data, directives=data_of(visit.pack).directives, received=standings(visit), **kwargs)


def standings(visit: Visit) -> dict[str, str]:
    """How each directive stood when the engine came in, by number."""
    return {each.words: each.standing for each in received(visit) if each.what == What.DIRECTIVE}


def _shown(
    request: PersonRequest, visit: Visit, form: ReleaseForm, status: int = 200, sign_form: SignForm | None = None
) -> HttpResponse:
    try:
        statement = statement_to_sign(visit, form.given(), request.user, timezone.localdate())
    except REFUSED as refused:
        return _page(request, visit, form, status_of(refused), refused=refused)
    return _page(request, visit, form, status, statement=statement, sign_form=sign_form)


def _page(
    request: PersonRequest,
    visit: Visit,
    form: ReleaseForm,
    status: int = 200,
    *,
    refused: Exception | None = None,
    statement: Statement | None = None,
    sign_form: SignForm | None = None,
) -> HttpResponse:
    situation, now = whole_engine(visit), timezone.now()
    blockers = release_blockers(situation)
    held = [each for each in refused.blockers if each not in blockers] if isinstance(refused, ReleaseHeld) else []
    context = {
        "visit": visit,
        "area": situation.area,
        "blockers": blockers,
        "held": held,
        "acts_missing": acts_missing(situation),
        "why_not": why_not(request.user, visit, timezone.localdate(now)),
        "serious": [(each, each.hours_left(now)) for each in serious_of(visit)],
        "form": form,
        "refused": str(refused or ""),
        "statement": statement,
        "seen": sha256_of(text_of(statement)) if statement else "",
        "sign_form": sign_form or SignForm(),
    }
    return render(request, "benches/release.html", context, status=status)
