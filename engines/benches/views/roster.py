"""The roster of authorisations: who may do what beyond their role, since when, and on what evidence."""

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from engines.benches.release_forms import AuthoriseForm
from engines.traveler.errors import OperationRefused
from engines.traveler.queries import authorisations
from engines.traveler.services import authorise, end_authorisation
from engines.traveler.trades import in_words
from shopfloor.people.errors import Refused
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.SEE_PEOPLE)
@require_safe
def roster(request: PersonRequest) -> HttpResponse:
    return _page(request, AuthoriseForm(granter=request.user, initial={"valid_from": timezone.localdate()}))


@needs(Permission.AUTHORISE)
@require_POST
@receipted
def grant(request: PersonRequest) -> HttpResponse:
    form = AuthoriseForm(request.POST, granter=request.user)
    if not form.is_valid():
        return _page(request, form, 422)
    return _act(request, form, lambda: authorise(**form.cleaned_data, by=request.user, at=timezone.now()), "Authorised.")


@needs(Permission.AUTHORISE)
@require_POST
@receipted
def end(request: PersonRequest, pk: UUID) -> HttpResponse:
    found = get_object_or_404(authorisations(), pk=pk)
    return _act(
        request,
        AuthoriseForm(granter=request.user),
        lambda: end_authorisation(authorisation=found, by=request.user, at=timezone.now()),
        "Ended: it counts for nothing that is signed from now on.",
    )


def _act(request: PersonRequest, form: AuthoriseForm, act: Callable[[], object], done: str) -> HttpResponse:
    try:
        act()
    except (OperationRefused, Refused) as refused:
        return _page(request, form, refused.status, str(refused))
    messages.success(request, done)
    return redirect("benches:roster")


def _page(request: PersonRequest, form: AuthoriseForm, status: int = 200, refused: str = "") -> HttpResponse:
    today = timezone.localdate()
    shown = [(each, each.ended_at is None and each.is_valid_on(today), in_words(each.kinds)) for each in authorisations()]
    return render(request, "benches/roster.html", {"roster": shown, "form": form, "refused": refused}, status=status)
