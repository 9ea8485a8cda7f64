"""A reading is entered: the value first, then the verdict and its strip."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode
from django.views.decorators.http import require_http_methods

from engines.benches.authorised import why_not_working
from engines.benches.refusals import REFUSED, status_of
from engines.inspection.standing import State
from engines.steps.kinds.figures import drawn
from engines.steps.kinds.reading import ReadingStep
from engines.steps.registry import step_of
from engines.steps.work import Work
from engines.traveler import queries
from engines.traveler.models import Operation
from engines.traveler.services import measure
from engines.traveler.work import waits_for, work_on
from measurements.readings.models import Reading
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.DO_WORK)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def take(request: PersonRequest, pk: UUID) -> HttpResponse:
    shown = get_object_or_404(queries.operations(), pk=pk)
    step, work = step_of(shown.kind), work_on(shown.area.visit, shown)
    row, place = request.GET.get("row", ""), request.GET.get("place", "")
    if not isinstance(step, ReadingStep) or row not in work.operation.names or (row, place) not in work.now.rows.by_key:
        raise Http404("Nothing of that name is read at this operation.")
    corrects = _corrected(work, row, place, request.GET.get("corrects", ""))
    form = step.form_at(work, row, place, corrects, request.POST or None)
    status = 422 if form.is_bound else 200
    if form.is_valid():
        try:
            reading = measure(
                operation=shown, row=row, place=place, form=form, corrects=corrects, by=request.user, at=timezone.now()
            )
        except REFUSED as refused:
            form.add_error(None, str(refused))
            status = status_of(refused)
        else:
            messages.success(request, f"{row} at {place}: {reading.verdict}.")
            query = urlencode({"row": row, "place": place, "kept": str(reading.pk)})
            return redirect(f"{reverse('benches:take', args=[shown.pk])}?{query}")
    return _page(request, shown, step, work, row, place, form, corrects, status)


def _corrected(work: Work, row: str, place: str, key: str) -> Reading | None:
    if not key:
        return None
    found = next((each for each in work.now.taken.values() if str(each.reading_id) == key), None)
    if found is None or (found.row, found.place) != (row, place):
        raise Http404("There is no such reading to correct.")
    return found.reading


def _page(  # type: ignore[no-untyped-def]
    request: PersonRequest, shown: Operation, step: ReadingStep, work: Work, row: str, place: str, form, corrects, status: int
) -> HttpResponse:
    requirement, not_yours = work.now.rows.by_key[row, place], why_not_working(request.user, work)
    kept = request.GET.get("kept", "")
    names = {row, *(each for each in work.now.rows.derived_from(row)), *(each for each in work.now.rows.fits_of(row))}
    here = [each for each in work.now.rows.requirements if each.row in names and each.place == place]
    context = {
        "operation": shown,
        "visit": shown.area.visit,
        "row": work.now.rows.any(row),
        "part": work.data.line_by_code[requirement.line].name,
        "place": place,
        "tagged": work.now.tagged.get((requirement.line, requirement.at)),
        "form": None if not_yours or (kept and not form.is_bound) else form,
        "not_yours": not_yours,
        "corrects": corrects,
        "waits": waits_for(shown.area.visit, shown) if shown.signed_at is None else [],
        "lines": [drawn(work, work.now.of(each)) for each in here],
        "earlier": [each for each in work.now.taken.values() if (each.row, each.place) == (row, place)],
        "following": _following(step, work, row, place),
    }
    return render(request, "benches/take.html", context, status=status)


def _following(step: ReadingStep, work: Work, row: str, place: str) -> tuple[str, str] | None:
    """The next place that is not read yet, after this one in the order of the data and then from the beginning."""
    every = [each for each in work.now.rows.requirements if each.row in work.operation.names]
    here = next(index for index, each in enumerate(every) if each.key == (row, place))
    for each in [*every[here + 1 :], *every[:here]]:
        standing = work.now.of(each)
        if standing.state == State.MISSING or (standing.state == State.PENDING and standing.read is None):
            return each.key
    return None
