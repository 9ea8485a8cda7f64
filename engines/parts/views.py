"""Pages of the parts: found by number, serial or mark, each with its whole history."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.forms import Form
from django.http import HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from engines.parts import queries, services
from engines.parts.errors import PartRefused
from engines.parts.forms import EvidenceForm, ItemForm, ScrapForm
from engines.parts.models import Item
from engines.parts.services.evidence import Upload
from shopfloor.documents.files import read
from shopfloor.documents.sending import attachment
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

PAGE = 50


@needs(Permission.SEE_PARTS)
@require_safe
def items(request: PersonRequest) -> HttpResponse:
    text = request.GET.get("text", "").strip()[:60]
    page = Paginator(queries.items(text), PAGE).get_page(request.GET.get("page"))
    return render(request, "parts/items.html", {"page": page, "text": text})


@needs(Permission.KEEP_PARTS)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def add(request: PersonRequest) -> HttpResponse:
    form = ItemForm(request.POST or None)
    status = 422 if form.is_bound else 200
    if form.is_valid():
        try:
            item = services.add_item(**form.cleaned_data, origin="booked in", by=request.user, at=timezone.now())
        except PartRefused as refused:
            form.add_error(None, str(refused))
            status = refused.status
        else:
            messages.success(request, "On record. Book its evidence of eligibility now.")
            return redirect("parts:item", item.pk)
    return render(request, "parts/add.html", {"form": form}, status=status)


@needs(Permission.SEE_PARTS)
@require_safe
def item(request: PersonRequest, pk: UUID) -> HttpResponse:
    return _page(request, get_object_or_404(queries.items(), pk=pk))


@needs(Permission.KEEP_PARTS)
@require_POST
@receipted
def book(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.items(), pk=pk)
    form = EvidenceForm(request.POST, request.FILES)
    if not form.is_valid():
        return _page(request, shown, 422, evidence_form=form)
    given: dict[str, Any] = dict(form.cleaned_data)
    file = given.pop("file")
    upload = Upload(file.name, file.read()) if file else None
    try:
        services.book_evidence(item=shown, **given, upload=upload, by=request.user, at=timezone.now())
    except PartRefused as refused:
        form.add_error(None, str(refused))
        return _page(request, shown, refused.status, evidence_form=form)
    messages.success(request, "Evidence booked.")
    return redirect("parts:item", shown.pk)


@needs(Permission.KEEP_PARTS)
@require_POST
@receipted
def scrap(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.items(), pk=pk)
    form = ScrapForm(request.POST)
    if not form.is_valid():
        return _page(request, shown, 422, scrap_form=form)
    try:
        services.scrap_item(item=shown, reason=form.cleaned_data["reason"], by=request.user, at=timezone.now())
    except PartRefused as refused:
        form.add_error(None, str(refused))
        return _page(request, shown, refused.status, scrap_form=form)
    messages.success(request, "Scrapped.")
    return redirect("parts:item", shown.pk)


@needs(Permission.SEE_PARTS)
@require_safe
def evidence(request: PersonRequest, pk: UUID, certificate_pk: UUID) -> HttpResponseBase:
    shown = get_object_or_404(queries.items(), pk=pk)
    found = get_object_or_404(queries.certificates(shown).filter(file__isnull=False), pk=certificate_pk)
    assert found.file is not None
    ending = "pdf" if found.file.media_type == "application/pdf" else "jpg"
    return attachment(read(found.file), f"evidence-{found.pk}.{ending}", found.file.media_type)


def _page(request: PersonRequest, shown: Item, status: int = 200, **forms: Form) -> HttpResponse:
    context = {
        "item": shown,
        "history": queries.history(shown),
        "certificates": queries.certificates(shown),
        "remaining": queries.remaining(shown) if shown.tracking == "lot" else None,
        "evidence_form": EvidenceForm(),
        "scrap_form": ScrapForm(),
        **forms,
    }
    return render(request, "parts/item.html", context, status=status)
