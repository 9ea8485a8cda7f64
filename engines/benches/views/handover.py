"""The page that one shift leaves to the next."""

from django.core.paginator import Paginator
from django.http import HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from engines.benches.queries.board import open_visits
from engines.benches.queries.handover import handed_over
from shopfloor.people.permissions import Permission, PersonRequest, needs

PAGE = 25


@needs(Permission.SEE_WORK)
@require_safe
def handover(request: PersonRequest) -> HttpResponse:
    page, now = Paginator(open_visits(request.user), PAGE).get_page(request.GET.get("page")), timezone.now()
    return render(request, "benches/handover.html", {"page": page, "engines": handed_over(list(page), now), "now": now})
