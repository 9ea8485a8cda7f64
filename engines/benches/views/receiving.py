"""An engine comes in."""

from uuid import UUID

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from engines.benches.forms import ReceiveForm
from engines.benches.refusals import REFUSED, status_of
from engines.catalogue.queries import data_of, packs_in_force
from engines.traveler.services import open_visit
from shopfloor.people.permissions import Permission, PersonRequest, needs
from shopfloor.receipts.posts import receipted


@needs(Permission.RECEIVE_ENGINES)
@require_safe
def choose_model(request: PersonRequest) -> HttpResponse:
    return render(request, "benches/choose_model.html", {"packs": packs_in_force()})


@needs(Permission.RECEIVE_ENGINES)
@require_http_methods(["GET", "HEAD", "POST"])
@receipted
def receive(request: PersonRequest, pk: UUID) -> HttpResponse:
    pack = get_object_or_404(packs_in_force(), pk=pk)
    form = ReceiveForm(request.POST or None, directives=data_of(pack).directives)
    status = 422 if form.is_bound else 200
    if form.is_valid():
        try:
            visit = open_visit(**form.received(pack), by=request.user, at=timezone.now())
        except REFUSED as refused:
            form.add_error(None, str(refused))
            status = status_of(refused)
        else:
            return redirect("benches:visit", visit.pk)
    return render(request, "benches/receive.html", {"form": form, "pack": pack}, status=status)
