"""Pages of the judged sheets."""

from uuid import UUID

from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from measurements.judge import BadInput
from measurements.readings import queries
from measurements.readings.forms import SheetForm, read_form
from measurements.readings.paper import JUDGED_SHEET
from measurements.readings.services import SheetRefused, judge_sheet
from shopfloor.documents.downloads import attachment
from shopfloor.documents.services import request_document
from shopfloor.people.permissions import Permission, needs

PAGE = 100


@require_GET
@needs(Permission.SEE_SHEETS)
def sheets(request: HttpRequest) -> HttpResponse:
    page = Paginator(queries.visible_sheets(request.user), 50).get_page(request.GET.get("page"))
    return render(request, "readings/sheets.html", {"page": page})


@require_http_methods(["GET", "POST"])
@needs(Permission.JUDGE_SHEETS)
def judge(request: HttpRequest) -> HttpResponse:
    form = SheetForm(request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        try:
            sheet = judge_sheet(**read_form(form), by=request.user, at=timezone.now())
        except (BadInput, SheetRefused) as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect("readings:sheet", sheet.pk)
    return render(request, "readings/judge.html", {"form": form}, status=422 if form.errors else 200)


@require_GET
@needs(Permission.SEE_SHEETS)
def sheet(request: HttpRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.visible_sheets(request.user), pk=pk)
    verdict, page = request.GET.get("verdict", ""), queries.page_number(request.GET.get("page"))
    lines, more = queries.page_of_lines(shown, verdict=verdict, page=page, size=PAGE)
    context = {"sheet": shown, "lines": lines, "verdict": verdict, "page": page, "more": more}
    return render(request, "readings/sheet.html", context)


@require_GET
@needs(Permission.SEE_SHEETS)
def verdicts(request: HttpRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.visible_sheets(request.user), pk=pk)
    return attachment(shown.verdicts_file, f"verdicts-{shown.pk}.csv")


@require_POST
@needs(Permission.SEE_SHEETS)
def paper(request: HttpRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.visible_sheets(request.user), pk=pk)
    document = request_document(kind=JUDGED_SHEET, subject=str(shown.pk), by=request.user, at=timezone.now())
    return redirect("documents:document", document.pk)
