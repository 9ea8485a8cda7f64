"""The ledger for programs: the same events, with the hashed bytes and both hashes, so that anyone can check a chain."""

from django.http import Http404
from django.urls import path
from rest_framework.exceptions import ValidationError
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopfloor.auditing.forms import EventFilter
from shopfloor.auditing.queries import Line, in_words, page
from shopfloor.ledger.queries import event_at
from shopfloor.people.permissions import Permission, api_needs


class Events(APIView):
    permission_classes = [api_needs(Permission.READ_LEDGER)]

    def get(self, request: Request) -> Response:
        form = EventFilter(request.query_params)
        if not form.is_valid():
            raise ValidationError(form.errors.get_json_data())
        shown = page(form.cleaned_data)
        return Response({"events": [summary(line) for line in shown.lines], "before": shown.older})


class Event(APIView):
    permission_classes = [api_needs(Permission.READ_LEDGER)]

    def get(self, request: Request, chain: str, sequence: int) -> Response:
        found = event_at(chain, sequence)
        if found is None:
            raise Http404
        return Response(summary(in_words([found])[0]))


def summary(line: Line) -> dict[str, object]:
    event = line.event
    return {
        "id": event.pk,
        "chain": event.chain,
        "sequence": event.sequence,
        "kind": event.kind,
        "act": event.act,
        "by": event.by,
        "at": event.at,
        "record": f"{event.about_label}/{event.about_id}" if event.about_label else None,
        "sentence": line.sentence,
        "body": bytes(event.body_bytes).decode("utf-8", "backslashreplace"),
        "previous": bytes(event.previous).hex(),
        "hash": bytes(event.hash).hex(),
    }


app_name = "auditing-api"
urlpatterns = [
    path("events/", Events.as_view(), name="events"),
    path("events/<str:chain>/<int:sequence>/", Event.as_view(), name="event"),
]
