"""Something is not as it must be: raised, decided, signed twice where a limit is conceded, carried out."""

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.forms import Form
from django.http import HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from engines.benches.confirming import refusal_of
from engines.benches.forms import AskForm, DecideForm, DoneForm, PasswordForm, RaiseForm, ReplaceForm
from engines.benches.queries.asking import photos_to_show
from engines.benches.refusals import REFUSED, status_of
from engines.benches.release_forms import ReportForm
from engines.inspection import queries
from engines.inspection.answers import refusal_of as undone_by
from engines.inspection.answers import unanswered
from engines.inspection.ends import is_carried_out, is_open, last_decision, still_stands
from engines.inspection.facts import Inspection, inspection_of
from engines.inspection.models import Discrepancy, Disposition
from engines.inspection.offers import offered, work_offered
from engines.inspection.services import carry_out, decide, raise_discrepancy, sign_second, take_its_place
from engines.inspection.services.deciding import Data
from engines.inspection.standing import NEW_PART, Kind
from engines.release.queries import serious_of
from engines.release.services import mark_serious, report_serious
from engines.steps.spots import as_value, from_value
from engines.visits.models import VisitArea
from engines.visits.queries import areas, visible_visits
from engines.visits.services import Identity
from measurements.readings.shown import figures
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted

Act = Callable[[], object]


@needs(Permission.DO_WORK)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def raise_on(request: PersonRequest, pk: UUID) -> HttpResponse:
    area = get_object_or_404(areas(), pk=pk)
    now = inspection_of(area.visit)
    form = RaiseForm(request.POST or None, spots=_spots(now, area))
    status = 422 if form.is_bound else 200
    if form.is_valid():
        line, place = from_value(form.cleaned_data["spot"])
        words = form.cleaned_data["words"]
        try:
            found = raise_discrepancy(
                visit=area.visit, area=area.code, line=line, place=place, words=words, by=request.user, at=timezone.now()
            )
        except REFUSED as refused:
            form.add_error(None, str(refused))
            status = status_of(refused)
        else:
            return redirect("benches:discrepancy", found.pk)
    return render(request, "benches/raise.html", {"form": form, "area": area, "visit": area.visit}, status=status)


@needs(Permission.DO_WORK)
@require_POST
@receipted
def raise_from(request: PersonRequest, pk: UUID, reading_pk: UUID) -> HttpResponse:
    """A reading that is too close to call or not judged is brought before whoever decides."""
    visit = get_object_or_404(visible_visits(request.user), pk=pk)
    taken = get_object_or_404(visit.readings.select_related("reading"), reading_id=reading_pk)
    try:
        found = raise_discrepancy(visit=visit, area="", words="", reading=taken.reading, by=request.user, at=timezone.now())
    except REFUSED as refused:
        return render(request, "receipts/refused.html", {"sentence": str(refused)}, status=status_of(refused))
    return redirect("benches:discrepancy", found.pk)


@needs(Permission.SEE_WORK)
@require_safe
def discrepancy(request: PersonRequest, pk: UUID) -> HttpResponse:
    return page(request, get_object_or_404(queries.discrepancies(), pk=pk))


@needs(Permission.DISPOSE)
@require_POST
@receipted
def decide_on(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.discrepancies(), pk=pk)
    form = _decide_form(inspection_of(shown.visit), shown, request.POST)
    if not form.is_valid():
        return page(request, shown, 422, decide_form=form)
    given = form.cleaned_data
    data = Data(given["document"], given["revision"], given["page"])
    return _act(
        request,
        shown,
        lambda: decide(
            discrepancy=shown,
            kind=Kind(given["kind"]),
            data=data,
            words=given["words"],
            mate=given.get("mate", ""),
            seen=given["seen"],
            by=request.user,
            at=timezone.now(),
        ),
        decide_form=form,
    )


@needs(Permission.SECOND_CONCESSION)
@require_POST
def second(request: PersonRequest, pk: UUID, disposition_pk: UUID) -> HttpResponse:
    shown, made = _made(pk, disposition_pk)
    form = PasswordForm(request.POST)
    if status := refusal_of(request, form):
        return page(request, shown, status, password_form=form)
    return _second_once(request, shown=shown, made=made, form=form)


@receipted
def _second_once(request: PersonRequest, *, shown: Discrepancy, made: Disposition, form: PasswordForm) -> HttpResponse:
    return _act(request, shown, lambda: sign_second(disposition=made, by=request.user, at=timezone.now()), password_form=form)


@needs(Permission.DO_WORK)
@require_POST
@receipted
def done(request: PersonRequest, pk: UUID, disposition_pk: UUID) -> HttpResponse:
    shown, made = _made(pk, disposition_pk)
    form = DoneForm(request.POST)
    if not form.is_valid():
        return page(request, shown, 422, done_form=form)
    words = form.cleaned_data["words"]
    return _act(
        request, shown, lambda: carry_out(disposition=made, words=words, by=request.user, at=timezone.now()), done_form=form
    )


@needs(Permission.DO_WORK)
@require_POST
@receipted
def replace(request: PersonRequest, pk: UUID, disposition_pk: UUID) -> HttpResponse:
    """Another part takes the place of the one that was decided about."""
    shown, made = _made(pk, disposition_pk)
    form = ReplaceForm(request.POST)
    if not form.is_valid() or made.kind not in NEW_PART:
        return page(request, shown, 422, replace_form=form)
    given = form.cleaned_data
    identity = Identity(serial=given["serial"], mark=given["mark"], part_number=given["part_number"])
    return _act(
        request,
        shown,
        lambda: take_its_place(disposition=made, identity=identity, words=given["words"], by=request.user, at=timezone.now()),
        replace_form=form,
    )


@needs(Permission.DISPOSE)
@require_POST
@receipted
def mark(request: PersonRequest, pk: UUID) -> HttpResponse:
    """As a serious defect, which must be reported."""
    shown = get_object_or_404(queries.discrepancies(), pk=pk)
    form = ReportForm({})
    return _act(request, shown, lambda: mark_serious(discrepancy=shown, by=request.user, at=timezone.now()), report_form=form)


@needs(Permission.DISPOSE)
@require_POST
@receipted
def report(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.discrepancies(), pk=pk, serious__isnull=False)
    form = ReportForm(request.POST)
    if not form.is_valid():
        return page(request, shown, 422, report_form=form)
    told = form.cleaned_data["reported_to"]
    return _act(
        request,
        shown,
        lambda: report_serious(defect=shown.serious, reported_to=told, by=request.user, at=timezone.now()),
        report_form=form,
    )


def _made(pk: UUID, disposition_pk: UUID) -> tuple[Discrepancy, Disposition]:
    shown = get_object_or_404(queries.discrepancies(), pk=pk)
    return shown, get_object_or_404(shown.dispositions.select_related("discrepancy"), pk=disposition_pk)


def _act(request: PersonRequest, shown: Discrepancy, act: Act, **forms: Form) -> HttpResponse:
    try:
        act()
    except REFUSED as refused:
        return page(request, shown, status_of(refused), str(refused), **forms)
    messages.success(request, "Kept.")
    return redirect("benches:discrepancy", shown.pk)


def page(request: PersonRequest, shown: Discrepancy, status: int = 200, refused: str = "", **forms: Form) -> HttpResponse:
    """`refused` stands above everything: the form that was sent may no longer be there."""
    now = inspection_of(shown.visit)
    found = next(each for each in now.discrepancies if each.pk == shown.pk)
    last = last_decision(found)
    context = {
        "refused": refused,
        "discrepancy": found,
        "visit": shown.visit,
        "area": areas().get(visit=shown.visit, code=shown.area),
        "strip": figures(found.reading).strip if found.reading else None,
        "is_open": is_open(now, found),
        "still_stands": still_stands(now, found),
        "made": [(each, is_carried_out(now, found, each), each == last, undone_by(found, each)) for each in found.made],
        "waits": unanswered(found),
        "ask_form": AskForm(kinds=work_offered(found), photos=photos_to_show(shown).items()),
        "new_part": NEW_PART,
        "decide_form": _decide_form(now, found),
        "password_form": PasswordForm(),
        "done_form": DoneForm(),
        "replace_form": ReplaceForm(),
        "serious": (serious := serious_of(shown.visit).filter(discrepancy=shown).first()),
        "hours_left": serious.hours_left(timezone.now()) if serious else 0,
        "report_form": ReportForm(),
        **forms,
    }
    return render(request, "benches/discrepancy.html", context, status=status)


def _decide_form(now: Inspection, found: Discrepancy, data: QueryDict | None = None) -> DecideForm:
    requirement = now.rows.by_key.get((found.row, found.place))
    mates = [
        (row, now.rows.data.line_by_code[now.rows.any(row).part].name)
        for row in ((requirement.mates or ()) if requirement else ())
    ]
    gathered = next(each for each in now.discrepancies if each.pk == found.pk)
    initial: dict[str, object] = {"seen": len(gathered.made)}
    if found.reading:
        row = found.reading.row
        initial |= {"document": row.document, "revision": row.document_revision, "page": row.page}
    return DecideForm(data, kinds=offered(gathered), mates=mates, initial=initial)


def _spots(now: Inspection, area: VisitArea) -> list[tuple[str, str]]:
    lines = (line for line in now.rows.data.lines if line.area == area.code)
    return [(as_value((line.line, place)), f"{line.name}, {place}") for line in lines for place in line.places]
