"""Pages of the judged sheets."""

from uuid import UUID

from django.core.paginator import Paginator
from django.http import HttpResponse, HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from measurements.judge import BadInput
from measurements.metrology.conformity import LABEL
from measurements.readings import queries
from measurements.readings.forms import SheetForm, read_form
from measurements.readings.paper import JUDGED_SHEET
from measurements.readings.services import SheetRefused, judge_sheet
from shopfloor.documents.sending import attachment
from shopfloor.documents.services import request_document
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

PAGE = 100


@needs(Permission.SEE_SHEETS)
@require_safe
def sheets(request: PersonRequest) -> HttpResponse:
    page = Paginator(queries.visible_sheets(request.user), 50).get_page(request.GET.get("page"))
    return render(request, "readings/sheets.html", {"page": page})


@needs(Permission.JUDGE_SHEETS)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def judge(request: PersonRequest) -> HttpResponse:
    form = SheetForm(request.POST, request.FILES) if request.method == "POST" else SheetForm()
    if form.is_valid():
        try:
            sheet = judge_sheet(**read_form(form), by=request.user, at=timezone.now())
        except (BadInput, SheetRefused) as refusal:
            form.add_error(None, str(refusal))
        else:
            return redirect("readings:sheet", sheet.pk)
    return render(request, "readings/judge.html", {"form": form}, status=422 if form.errors else 200)


@needs(Permission.SEE_SHEETS)
@require_safe
def sheet(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.with_files(queries.visible_sheets(request.user)), pk=pk)
    verdict, page = request.GET.get("verdict", ""), queries.page_number(request.GET.get("page"))
    lines, more = queries.page_of_lines(shown, verdict=verdict, page=page, size=PAGE)
    context = {"sheet": shown, "lines": lines, "verdict": verdict, "page": page, "more": more, "conformity_label": LABEL}
    return render(request, "readings/sheet.html", context)


@needs(Permission.SEE_SHEETS)
@require_safe
def verdicts(request: PersonRequest, pk: UUID) -> HttpResponseBase:
    shown = get_object_or_404(queries.with_files(queries.visible_sheets(request.user)), pk=pk)
    return attachment(queries.spreadsheet(shown), f"verdicts-{shown.pk}.csv", shown.verdicts_file.media_type)


@needs(Permission.SEE_SHEETS)
@require_POST
@receipted
def paper(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.visible_sheets(request.user), pk=pk)
    document = request_document(kind=JUDGED_SHEET, subject=str(shown.pk), by=request.user, at=timezone.now())
    return redirect("documents:document", document.pk)
