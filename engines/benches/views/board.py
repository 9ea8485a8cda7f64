"""The board: every engine in the shop, where each of its areas stands, since when, and what is open there."""

from django.core.paginator import Paginator
from django.http import HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from engines.benches.queries.board import board_lines, open_visits
from shopfloor.people.permissions import Permission, PersonRequest, needs

PAGE = 25


@needs(Permission.SEE_VISITS)
@require_safe
def board(request: PersonRequest) -> HttpResponse:
    page = Paginator(open_visits(request.user), PAGE).get_page(request.GET.get("page"))
    lines = board_lines(list(page), timezone.now())
    return render(request, "benches/board.html", {"page": page, "lines": lines})
