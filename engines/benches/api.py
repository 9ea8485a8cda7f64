"""Requests to customers, for programs: those that the person may see, and the customer's answer."""

from uuid import UUID

from django.http import HttpResponse
from django.shortcuts import get_object_or_404
from django.urls import path
from django.utils import timezone
from rest_framework import serializers
from rest_framework.response import Response
from rest_framework.views import APIView

from engines.benches.refusals import REFUSED, status_of
from engines.inspection import queries
from engines.inspection.models import Said, WorkAsked
from engines.inspection.services import answer
from shopfloor.people.errors import Refused
from shopfloor.people.permissions import Permission, PersonApiRequest, api_needs
from shopfloor.people.services import confirm_password

PAGE = 100


class RequestOutput(serializers.Serializer[WorkAsked]):
    id = serializers.UUIDField()
    visit = serializers.UUIDField(source="visit_id")
    number = serializers.IntegerField()
    engine = serializers.CharField(source="visit.engine.item.serial")
    finding = serializers.CharField(source="discrepancy.words")
    kind = serializers.CharField()
    words = serializers.CharField()
    parts = serializers.SerializerMethodField()
    hours = serializers.CharField()
    price = serializers.CharField()
    currency = serializers.CharField()
    photos = serializers.ListField(child=serializers.CharField())
    asked_at = serializers.DateTimeField()
    said = serializers.CharField()
    waits = serializers.BooleanField()

    def get_parts(self, asked: WorkAsked) -> list[str]:
        return asked.parts.splitlines()


class AnswerInput(serializers.Serializer[None]):
    said = serializers.ChoiceField(choices=Said.choices)
    words = serializers.CharField(max_length=600, required=False, allow_blank=True, default="")
    password = serializers.CharField(max_length=200, trim_whitespace=False)


class Requests(APIView):
    """The oldest first; with `?waiting=yes` those that nobody has answered."""

    permission_classes = [api_needs(Permission.SEE_VISITS)]

    def get(self, request: PersonApiRequest) -> Response:
        waiting = request.query_params.get("waiting") == "yes"
        found = queries.unanswered_requests(request.user) if waiting else queries.visible_requests(request.user)
        return Response([RequestOutput(each).data for each in found[:PAGE]])


class OneRequest(APIView):
    permission_classes = [api_needs(Permission.SEE_VISITS)]

    def get(self, request: PersonApiRequest, pk: UUID) -> Response:
        return Response(RequestOutput(get_object_or_404(queries.visible_requests(request.user), pk=pk)).data)


class OneAnswer(APIView):
    """An answer is given once: sent again it is refused with 409, which says how the first one stands."""

    permission_classes = [api_needs(Permission.ANSWER_REQUESTS)]

    def post(self, request: PersonApiRequest, pk: UUID) -> HttpResponse:
        shown = get_object_or_404(queries.visible_requests(request.user), pk=pk)
        typed = AnswerInput(data=request.data)
        typed.is_valid(raise_exception=True)
        given, now = dict(typed.validated_data), timezone.now()
        try:
            confirm_password(password=given.pop("password"), by=request.user, at=now)
            answer(request=shown, **given, by=request.user, at=now)
        except (Refused, *REFUSED) as refused:
            return Response({"detail": str(refused)}, status=status_of(refused))
        return Response(RequestOutput(get_object_or_404(queries.visible_requests(request.user), pk=pk)).data, status=201)


app_name = "benches-api"
urlpatterns = [
    path("requests/", Requests.as_view(), name="requests"),
    path("requests/<uuid:pk>/", OneRequest.as_view(), name="request"),
    path("requests/<uuid:pk>/answer/", OneAnswer.as_view(), name="answer"),
]
