"""Engines that were released: the list, one release with what amended it, and amending."""

from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from engines.benches.confirming import refusal_of
from engines.benches.forms import SignForm
from engines.benches.refusals import REFUSED, status_of
from engines.benches.release_forms import AmendForm
from engines.benches.views.releasing import standings
from engines.catalogue.queries import data_of
from engines.release.authority import why_not
from engines.release.checking import statement_to_sign
from engines.release.errors import ReleaseHeld
from engines.release.models import Release
from engines.release.queries import releases_of, visible_releases
from engines.release.services import amend
from engines.release.services.releasing import sha256_of
from engines.release.statement import Statement, text_of
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

PAGE = 25


@needs(Permission.SEE_VISITS)
@require_safe
def releases(request: PersonRequest) -> HttpResponse:
    page = Paginator(visible_releases(request.user), PAGE).get_page(request.GET.get("page"))
    return render(request, "benches/releases.html", {"page": page})


@needs(Permission.SEE_VISITS)
@require_safe
def released(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _visible(request, pk)
    every = [(each, each.content) for each in releases_of(shown.visit)]
    return render(request, "benches/released.html", {"release": shown, "visit": shown.visit, "releases": every[::-1]})


@needs(Permission.RELEASE)
@require_safe
def to_amend(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _visible(request, pk)
    return _page(request, shown, _form(shown, initial=AmendForm.initial_of(shown)))


@needs(Permission.RELEASE)
@require_POST
def preview_amendment(request: PersonRequest, pk: UUID) -> HttpResponse:
    """The text as it would be signed. Nothing is written."""
    shown = _visible(request, pk)
    form = _form(shown, request.POST)
    if not form.is_valid():
        return _page(request, shown, form, 422)
    return _shown(request, shown, form)


@needs(Permission.RELEASE)
@require_POST
def sign_amendment(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _visible(request, pk)
    form, sign_form = _form(shown, request.POST), SignForm(request.POST)
    if not form.is_valid():
        return _page(request, shown, form, 422)
    if status := refusal_of(request, sign_form):
        return _shown(request, shown, form, status, sign_form)
    return _amend_once(request, shown=shown, form=form, seen=sign_form.cleaned_data["seen"])


@receipted
def _amend_once(request: PersonRequest, *, shown: Release, form: AmendForm, seen: str) -> HttpResponse:
    try:
        signed = amend(release=shown, given=form.given(), seen_sha256=seen, by=request.user, at=timezone.now())
    except REFUSED as refused:
        return _page(request, shown, form, status_of(refused), refused=refused)
    messages.success(request, f"Release {signed.number} takes the place of release {shown.number}. The customer is told.")
    return redirect("benches:released", signed.pk)


def _visible(request: PersonRequest, pk: UUID) -> Release:
    return get_object_or_404(visible_releases(request.user), pk=pk)


def _form(shown: Release, *data: object, **kwargs: object) -> AmendForm:
    visit = shown.visit
    return AmendForm(*data, directives=data_of(visit.pack).directives, received=standings(visit), **kwargs)


def _shown(
    request: PersonRequest, shown: Release, form: AmendForm, status: int = 200, sign_form: SignForm | None = None
) -> HttpResponse:
    try:
        statement = statement_to_sign(shown.visit, form.given(), request.user, timezone.localdate(), shown)
    except REFUSED as refused:
        return _page(request, shown, form, status_of(refused), refused=refused)
    return _page(request, shown, form, status, statement=statement, sign_form=sign_form)


def _page(
    request: PersonRequest,
    shown: Release,
    form: AmendForm,
    status: int = 200,
    *,
    refused: Exception | None = None,
    statement: Statement | None = None,
    sign_form: SignForm | None = None,
) -> HttpResponse:
    context = {
        "release": shown,
        "visit": shown.visit,
        "amended_by": getattr(shown, "amended_by", None),
        "why_not": why_not(request.user, shown.visit, timezone.localdate()),
        "form": form,
        "refused": str(refused or ""),
        "held": list(refused.blockers) if isinstance(refused, ReleaseHeld) else [],
        "statement": statement,
        "seen": sha256_of(text_of(statement)) if statement else "",
        "sign_form": sign_form or SignForm(),
    }
    return render(request, "benches/amend.html", context, status=status)
