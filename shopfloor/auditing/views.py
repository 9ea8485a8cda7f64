"""The list of events and the page of one event."""

import json

from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.utils.http import urlencode
from django.views.decorators.http import require_safe

from shopfloor.auditing.forms import EventFilter
from shopfloor.auditing.queries import Page, in_words, page
from shopfloor.ledger.faults import readable_body
from shopfloor.ledger.queries import event_at
from shopfloor.people.permissions import Permission, PersonRequest, needs


@needs(Permission.READ_LEDGER)
@require_safe
def events(request: PersonRequest) -> HttpResponse:
    form = EventFilter(request.GET)
    valid = form.is_valid()
    shown = page(form.cleaned_data) if valid else Page([], None)
    asked = {name: value for name, value in form.cleaned_data.items() if value}
    older = urlencode({**asked, "before": shown.older}) if shown.older else ""
    context = {"form": form, "lines": shown.lines, "older": older}
    return render(request, "auditing/events.html", context, status=200 if valid else 400)


@needs(Permission.READ_LEDGER)
@require_safe
def event(request: PersonRequest, chain: str, sequence: int) -> HttpResponse:
    found = event_at(chain, sequence)
    if found is None:
        raise Http404(f"Chain {chain} has no event {sequence}.")
    proof = {
        "hash": bytes(found.hash).hex(),
        "previous": bytes(found.previous).hex(),
        "body": json.dumps(readable_body(found), indent=2, ensure_ascii=False, sort_keys=True),
        "bytes": len(bytes(found.body_bytes)),
    }
    return render(request, "auditing/event.html", {"line": in_words([found])[0], "proof": proof})
