"""Pages of the documents: the list, one document with its progress, the download."""

from uuid import UUID

from django.core.paginator import Paginator
from django.http import Http404, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_POST, require_safe

from shopfloor.documents import progress as progress_of
from shopfloor.documents import queries, services
from shopfloor.documents.files import FileAltered
from shopfloor.documents.models import Document
from shopfloor.documents.sending import as_download
from shopfloor.jobs.services import NothingToRetry
from shopfloor.people.permissions import PersonRequest, signed_in

PAGE = 50


@signed_in
@require_safe
def documents(request: PersonRequest) -> HttpResponse:
    page = Paginator(queries.newest_for(request.user), PAGE).get_page(request.GET.get("page"))
    return render(request, "documents/papers.html", {"page": page})


@signed_in
@require_safe
def document(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, _fetch(request, pk))


@signed_in
@require_safe
def progress(request: PersonRequest, pk: UUID) -> HttpResponseBase:
    """The moving part of the page; 304 while nothing has moved."""
    paper = _fetch(request, pk)
    etag = progress_of.etag(paper)
    response = get_conditional_response(request, etag=etag) or render(request, "documents/progress.html", _shown(request, paper))
    response["ETag"] = etag
    response["Cache-Control"] = "private, no-cache"
    return response


@signed_in
@require_POST
def again(request: PersonRequest, pk: UUID) -> HttpResponse:
    paper = _fetch(request, pk)
    try:
        services.try_again(document=paper, by=request.user, at=timezone.now())
    except NothingToRetry as refused:
        return _page(request, paper, refused=str(refused), status=409)
    return redirect("documents:document", pk=pk)


@signed_in
@require_safe
def download(request: PersonRequest, pk: UUID) -> HttpResponseBase:
    paper = _fetch(request, pk)
    try:
        return as_download(request, paper)
    except FileAltered as altered:
        return render(request, "documents/file_altered.html", {"paper": paper, "altered": str(altered)}, status=500)


def _fetch(request: PersonRequest, pk: UUID) -> Document:
    try:
        return queries.document_for(request.user, pk)
    except queries.NoSuchDocument:
        raise Http404("There is no such paper.") from None


def _page(request: PersonRequest, paper: Document, refused: str = "", status: int = 200) -> HttpResponse:
    return render(request, "documents/document.html", {**_shown(request, paper), "refused": refused}, status=status)


def _shown(request: PersonRequest, paper: Document) -> dict[str, object]:
    return {
        "paper": paper,
        "progress": progress_of.progress(paper),
        "can_try_again": queries.can_try_again(request.user, paper),
    }
