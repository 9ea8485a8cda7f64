"""A run for other programs: how it stands, and readings sent by a data logger. The same acts as on the page.

A post carries a UUID of its own in the header Idempotency-Key: sent twice, it is carried out once.
"""

from typing import Any
from uuid import UUID

from django.http import HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404
from django.urls import path
from django.utils import timezone
from rest_framework import serializers
from rest_framework.exceptions import ValidationError
from rest_framework.response import Response
from rest_framework.views import APIView

from engines.testbench import queries, services
from engines.testbench.findings import findings, sha256_of
from engines.testbench.models import Run
from engines.testbench.services import Typed
from engines.testbench.views.refusals import REFUSED, status_of
from shopfloor.ledger.canonical import canonical
from shopfloor.people.permissions import Permission, PersonApiRequest, api_needs
from shopfloor.receipts.posts import KeyMissing, key_of
from shopfloor.receipts.services import KeyReused, once


class ReadingInput(serializers.Serializer[Any]):
    step = serializers.CharField(max_length=60, allow_blank=True, default="")
    channel = serializers.CharField(max_length=60)
    cylinder = serializers.IntegerField(min_value=0, max_value=99, default=0)
    value = serializers.CharField(max_length=40)
    taken_at = serializers.DateTimeField(required=False)


class OneRun(APIView):
    permission_classes = [api_needs(Permission.SEE_WORK)]

    def get(self, request: PersonApiRequest, pk: UUID) -> Response:
        return Response(_told(get_object_or_404(queries.runs(), pk=pk)))


class Readings(APIView):
    permission_classes = [api_needs(Permission.SEE_WORK, to_write=Permission.RUN_ENGINES)]

    def get(self, request: PersonApiRequest, pk: UUID) -> Response:
        run = get_object_or_404(queries.runs(), pk=pk)
        return Response([_reading(each) for each in queries.readings_of(run)])

    def post(self, request: PersonApiRequest, pk: UUID) -> HttpResponse:
        run = get_object_or_404(queries.runs(), pk=pk)
        given = ReadingInput(data=request.data)
        if not given.is_valid():
            raise ValidationError(given.errors)
        sent = {name: str(value) for name, value in sorted(given.validated_data.items())}
        try:
            return once(
                key=key_of(request._request),
                route=request.path,
                content_sha256=sha256_of(canonical(sent).decode()),
                act=lambda: _enter(request, run, given.validated_data),
                by=request.user,
                at=timezone.now(),
            )
        except (KeyMissing, KeyReused) as refused:
            return JsonResponse({"detail": str(refused)}, status=409 if isinstance(refused, KeyReused) else 400)


def _enter(request: PersonApiRequest, run: Run, given: dict[str, Any]) -> HttpResponse:
    typed = [Typed(given["channel"], given["value"], given["cylinder"])]
    try:
        kept = services.read(
            run=run, step=given["step"], typed=typed, taken_at=given.get("taken_at"), by=request.user, at=timezone.now()
        )
    except REFUSED as refused:
        return JsonResponse({"detail": str(refused)}, status=status_of(refused))
    return JsonResponse({"run": str(kept.pk), "outcome": kept.outcome, "why": kept.why}, status=201)


def _told(run: Run) -> dict[str, Any]:
    now = queries.run_now(run, timezone.now())
    going = now.standing.going
    return {
        "id": str(run.pk),
        "number": run.number,
        "engine": run.visit.engine.item.serial,
        "begun_at": run.begun_at,
        "ended_at": run.ended_at,
        "outcome": run.outcome,
        "why": run.why,
        "step": going.code if going else "",
        **findings(now.standing),
    }


def _reading(reading: Any) -> dict[str, Any]:
    return {
        "id": str(reading.pk),
        "step": reading.step,
        "channel": reading.channel,
        "cylinder": reading.cylinder,
        "value": reading.value,
        "unit": reading.unit,
        "taken_at": reading.taken_at,
        "taken_by": reading.taken_by.name,
        "corrected": hasattr(reading, "corrected_by"),
    }


app_name = "testbench-api"
urlpatterns = [
    path("runs/<uuid:pk>/", OneRun.as_view(), name="run"),
    path("runs/<uuid:pk>/readings/", Readings.as_view(), name="readings"),
]
