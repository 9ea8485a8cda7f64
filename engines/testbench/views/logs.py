"""A log of the stand is sent."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils import timezone
from django.views.decorators.http import require_POST

from engines.testbench import queries, services
from engines.testbench.errors import MOST_TOLD, LogRefused
from engines.testbench.forms import LogForm
from engines.testbench.log_file import MOST_BYTES
from engines.testbench.views.pages import run_page
from engines.testbench.views.refusals import REFUSED, status_of
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.RUN_ENGINES)
@require_POST
@receipted
def send(request: PersonRequest, pk: UUID) -> HttpResponse:
    run = get_object_or_404(queries.runs(), pk=pk)
    form = LogForm(request.POST, request.FILES)
    if not form.is_valid():
        return run_page(request, run, 422, forms={"log_form": form})
    file = form.cleaned_data["log"]
    try:
        log = services.keep_log(run=run, name=file.name, data=file.read(MOST_BYTES + 1), by=request.user, at=timezone.now())
    except LogRefused as refused:
        return run_page(request, run, refused.status, mistakes=refused.mistakes[:MOST_TOLD])
    except REFUSED as refused:
        return run_page(request, run, status_of(refused), str(refused))
    messages.success(request, "A worker reads the log now." if log.job else f"{log.lines} lines of the log were kept.")
    return redirect("testbench:run", run.pk)
