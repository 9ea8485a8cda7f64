"""The page of an engine in the shop, its parts list, photos and what newer data change for it."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from engines.benches.forms import PhotoForm, SettleForm
from engines.benches.refusals import REFUSED, status_of
from engines.catalogue.data import ENGINE_STAGES
from engines.catalogue.queries import data_of
from engines.inspection.ends import ends_of, is_open
from engines.inspection.facts import inspection_of
from engines.inspection.queries import requests_of
from engines.release.queries import blockers_of, releases_of, situations_of
from engines.visits import queries
from engines.visits.models import Visit
from engines.visits.services import add_photo, settle_impact
from shopfloor.documents.files import read
from shopfloor.documents.kinds import DocumentKind, document_kinds
from shopfloor.documents.queries import NoSuchDocument, newest_for
from shopfloor.documents.sending import attachment
from shopfloor.documents.services import request_document
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.SEE_VISITS)
@require_safe
def visit(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, _visible(request, pk))


@needs(Permission.SEE_WORK)
@require_safe
def parts_list(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _visible(request, pk)
    now = inspection_of(shown)
    ends = [(each, now.tagged.get((each.line.line, each.place))) for each in ends_of(now)]
    areas = [(area, [pair for pair in ends if pair[0].area == area.code]) for area in data_of(shown.pack).areas]
    return render(request, "benches/parts_list.html", {"visit": shown, "areas": areas})


@needs(Permission.SEE_VISITS)
@require_POST
@receipted
def make_paper(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _visible(request, pk)
    name = request.POST.get("kind", "")
    if name not in {kind.name for kind in papers_of_visits()}:
        raise Http404("There is no such paper.")
    try:
        document = request_document(kind=name, subject=str(shown.pk), by=request.user, at=timezone.now())
    except NoSuchDocument:
        raise Http404("There is no such paper.") from None
    return redirect("documents:document", document.pk)


@needs(Permission.DO_WORK)
@require_POST
@receipted
def photograph(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = _visible(request, pk)
    form = PhotoForm(request.POST, request.FILES)
    if not form.is_valid():
        return _page(request, shown, 422, photo_form=form)
    photo, words = form.cleaned_data["photo"], form.cleaned_data["words"]
    try:
        add_photo(visit=shown, area="", words=words, data=photo.read(), name=photo.name, by=request.user, at=timezone.now())
    except REFUSED as refused:
        form.add_error("photo", str(refused))
        return _page(request, shown, status_of(refused), photo_form=form)
    messages.success(request, "Photo kept.")
    return redirect("benches:visit", shown.pk)


@needs(Permission.SEE_VISITS)
@require_safe
def photo(request: PersonRequest, pk: UUID, photo_pk: UUID) -> HttpResponseBase:
    found = get_object_or_404(queries.photos(_visible(request, pk)), pk=photo_pk)
    return attachment(read(found.file), f"photo-{found.pk}.jpg", found.file.media_type)


@needs(Permission.DISPOSE)
@require_POST
@receipted
def settle(request: PersonRequest, pk: UUID, line_pk: UUID) -> HttpResponse:
    shown = _visible(request, pk)
    line = get_object_or_404(queries.impact(shown), pk=line_pk)
    form = SettleForm(request.POST)
    if not form.is_valid():
        return _page(request, shown, 422, settle_form=form)
    try:
        settle_impact(line=line, words=form.cleaned_data["words"], by=request.user, at=timezone.now())
    except REFUSED as refused:
        form.add_error(None, str(refused))
        return _page(request, shown, status_of(refused), settle_form=form)
    messages.success(request, "Settled.")
    return redirect("benches:visit", shown.pk)


def papers_of_visits() -> list[DocumentKind]:
    """The kinds of paper that are about a visit; the room above this one's side registers them."""
    return [kind for kind in document_kinds() if kind.name.startswith("visit-")]


def _visible(request: PersonRequest, pk: UUID) -> Visit:
    return get_object_or_404(queries.with_areas(queries.visible_visits(request.user)), pk=pk)


def _page(
    request: PersonRequest,
    shown: Visit,
    status: int = 200,
    photo_form: PhotoForm | None = None,
    settle_form: SettleForm | None = None,
) -> HttpResponse:
    situations = situations_of(shown, list(shown.areas.all()))
    now = situations[0].now if situations else inspection_of(shown)
    context = {
        "visit": shown,
        "areas": [(each.area, blockers_of(each)) for each in situations],
        "discrepancies": [(each, is_open(now, each)) for each in now.discrepancies],
        "requests": requests_of(shown),
        "outside": now.outside,
        "today": timezone.localdate(),
        "received": queries.received(shown),
        "photos": queries.photos(shown),
        "releases": list(releases_of(shown)),
        "to_release": not shown.closed_at and any(each.area.stage == ENGINE_STAGES[-1] for each in situations),
        "papers": newest_for(request.user).filter(subject=str(shown.pk))[:20],
        "paper_kinds": papers_of_visits(),
        "impact": situations[0].impact if situations else [],
        "photo_form": photo_form or PhotoForm(),
        "settle_form": settle_form or SettleForm(),
    }
    return render(request, "benches/visit.html", context, status=status)
