"""One serial, mark or lot through its whole life: where it was, what was read, what was decided."""

from uuid import UUID

from django.core.paginator import Paginator
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_safe

from engines.benches.queries.tracing import life_of
from engines.parts import queries
from shopfloor.people.permissions import Permission, PersonRequest, needs

PAGE = 50


@needs(Permission.SEE_PARTS)
@require_safe
def search(request: PersonRequest) -> HttpResponse:
    text = request.GET.get("text", "").strip()[:60]
    page = Paginator(queries.items(text), PAGE).get_page(request.GET.get("page")) if text else None
    return render(request, "benches/search.html", {"page": page, "text": text})


@needs(Permission.SEE_PARTS)
@require_safe
def trace(request: PersonRequest, pk: UUID) -> HttpResponse:
    item = get_object_or_404(queries.items(), pk=pk)
    return render(request, "benches/trace.html", {"item": item, "life": life_of(item)})
