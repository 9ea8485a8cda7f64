"""Pages of engine data."""

from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from engines.catalogue import hooks
from engines.catalogue import queries as catalogue
from engines.catalogue import services as catalogue_services
from engines.catalogue.changes import changes_between
from engines.catalogue.errors import DataRefused
from engines.catalogue.models import Pack
from engines.packs import queries, services
from engines.packs.forms import PackForm, PagesForm
from engines.packs.reading import KEYS, Mistake, PackMistakes
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

PAGE = 50


@needs(Permission.SEE_DATA)
@require_safe
def packs(request: PersonRequest) -> HttpResponse:
    page = Paginator(catalogue.packs(), PAGE).get_page(request.GET.get("page"))
    return render(request, "packs/packs.html", {"page": page})


@needs(Permission.LOAD_DATA)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def load(request: PersonRequest) -> HttpResponse:
    form = PackForm(request.POST, request.FILES) if request.method == "POST" else PackForm()
    if not form.is_valid():
        return _load_page(request, form, [], 422 if form.is_bound else 200)
    file = form.cleaned_data["pack"]
    try:
        pack = services.load_pack(data=file.read(), name=file.name, by=request.user, at=timezone.now())
    except PackMistakes as found:
        return _load_page(request, form, found.mistakes, 422)
    except DataRefused as refused:
        form.add_error(None, str(refused))
        return _load_page(request, form, [], refused.status)
    messages.success(request, "Kept as a draft. Another person now holds it against its pages.")
    return redirect("packs:pack", pack.pk)


@needs(Permission.SEE_DATA)
@require_safe
def pack(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, get_object_or_404(catalogue.packs(), pk=pk))


@needs(Permission.APPROVE_DATA)
@require_POST
@receipted
def check(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(catalogue.packs(), pk=pk)
    sources = catalogue.data_of(shown).sources
    form = PagesForm(request.POST, count=len(sources))
    if not form.is_valid():
        return _page(request, shown, " ".join(map(str, form.errors["page"])), 422)
    ticked = [sources[number] for number in form.cleaned_data["page"]]
    try:
        catalogue_services.check_pages(pack=shown, pages=ticked, by=request.user, at=timezone.now())
    except DataRefused as refused:
        return _page(request, shown, str(refused), refused.status)
    return redirect("packs:pack", shown.pk)


@needs(Permission.APPROVE_DATA)
@require_POST
@receipted
def approve(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(catalogue.packs(), pk=pk)
    try:
        services.approve(pack=shown, by=request.user, at=timezone.now())
    except DataRefused as refused:
        return _page(request, shown, str(refused), refused.status)
    messages.success(request, f"{shown} is in force.")
    return redirect("packs:pack", shown.pk)


@needs(Permission.SEE_DATA)
@require_safe
def compare(request: PersonRequest, pk: UUID, older_pk: UUID) -> HttpResponse:
    newer = get_object_or_404(catalogue.packs(), pk=pk)
    older = get_object_or_404(queries.other_revisions(newer), pk=older_pk)
    changes = changes_between(catalogue.data_of(older), catalogue.data_of(newer))
    return render(request, "packs/compare.html", {"newer": newer, "older": older, "changes": changes})


def _load_page(request: PersonRequest, form: PackForm, mistakes: list[Mistake], status: int) -> HttpResponse:
    return render(request, "packs/load.html", {"form": form, "mistakes": mistakes, "files": KEYS}, status=status)


def _page(request: PersonRequest, shown: Pack, refusal: str = "", status: int = 200) -> HttpResponse:
    pages = queries.cited_pages(shown)
    data = catalogue.data_of(shown)
    not_yours = queries.why_not_checked_by(shown, request.user)
    context = {
        "pack": shown,
        "data": data,
        "route": queries.route_of(data),
        "schedule": queries.schedule_of(data),
        "rows": catalogue.rows_of(shown),
        "pages": pages,
        "others": queries.other_revisions(shown),
        "not_yours": not_yours,
        "not_approver": not_yours or hooks.why_not(request.user, shown.model.code, timezone.localdate()),
        "not_yet": queries.why_not_approved(pages),
        "refusal": refusal,
    }
    return render(request, "packs/pack.html", context, status=status)
