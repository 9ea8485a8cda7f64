"""The board, and the part of it that a page left open asks for again and again."""

from django.core.paginator import Paginator
from django.http import HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.views.decorators.http import require_safe

from engines.benches.queries.board import board_lines, open_visits
from shopfloor.ledger.queries import newest_event
from shopfloor.people.permissions import Permission, PersonRequest, needs

PAGE = 25


@needs(Permission.SEE_VISITS)
@require_safe
def board(request: PersonRequest) -> HttpResponse:
    return _shown(request, "benches/board.html", _etag(request))


@needs(Permission.SEE_VISITS)
@require_safe
def lines(request: PersonRequest) -> HttpResponse:
    """304 while nothing was recorded since: one query."""
    etag = _etag(request)
    unchanged = get_conditional_response(request, etag=etag)
    if isinstance(unchanged, HttpResponse):
        return unchanged
    answer = _shown(request, "benches/board_lines.html", etag)
    answer["ETag"] = etag
    answer["Cache-Control"] = "private, no-cache"
    return answer


def _etag(request: PersonRequest) -> str:
    """What the board shows depends on: the record, the reader, the page, and the day."""
    return f'"{newest_event()}-{request.user.pk}-{request.GET.get("page", "1")[:6]}-{timezone.localdate()}"'


def _shown(request: PersonRequest, template: str, etag: str) -> HttpResponse:
    page = Paginator(open_visits(request.user), PAGE).get_page(request.GET.get("page"))
    shown = board_lines(list(page), timezone.now())
    return render(request, template, {"page": page, "lines": shown, "etag": etag})
