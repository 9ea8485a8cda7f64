"""Judged sheets for other programs: the same act and the same figures as on the pages."""

from uuid import UUID

from django.shortcuts import get_object_or_404
from django.urls import path, reverse
from django.utils import timezone
from rest_framework import serializers, status
from rest_framework.exceptions import ValidationError
from rest_framework.response import Response
from rest_framework.views import APIView

from measurements.judge import BadInput
from measurements.readings import queries
from measurements.readings.forms import SheetForm, read_form
from measurements.readings.models import Sheet
from measurements.readings.paper import JUDGED_SHEET
from measurements.readings.services import SheetRefused, judge_sheet
from shopfloor.documents.services import request_document
from shopfloor.people.permissions import Permission, PersonApiRequest, api_needs

PAGE = 100


class SheetOutput(serializers.Serializer[Sheet]):
    id = serializers.UUIDField()
    title = serializers.CharField()
    customer = serializers.CharField(source="customer.name", default=None)
    judged_at = serializers.DateTimeField()
    judged_by = serializers.CharField(source="judged_by.name")
    verdicts = serializers.SerializerMethodField()
    warnings = serializers.ListField(child=serializers.CharField())
    lines = serializers.SerializerMethodField()

    def get_verdicts(self, sheet: Sheet) -> dict[str, int]:
        return dict(sheet.counts)

    def get_lines(self, sheet: Sheet) -> str:
        return reverse("readings-api:lines", args=[sheet.pk])


class LineOutput(serializers.Serializer[queries.Line]):
    row = serializers.CharField(source="row.row")
    position = serializers.CharField()
    minimum = serializers.CharField()
    maximum = serializers.CharField()
    mean = serializers.CharField()
    verdict = serializers.CharField()
    conformity = serializers.CharField()
    reason = serializers.CharField()


class Sheets(APIView):
    permission_classes = [api_needs(Permission.SEE_SHEETS, to_write=Permission.JUDGE_SHEETS)]

    def get(self, request: PersonApiRequest) -> Response:
        newest = queries.visible_sheets(request.user)[:PAGE]
        return Response([SheetOutput(sheet).data for sheet in newest])

    def post(self, request: PersonApiRequest) -> Response:
        form = SheetForm(request.POST, request.FILES)
        if not form.is_valid():
            raise ValidationError(form.errors.get_json_data())
        try:
            sheet = judge_sheet(**read_form(form), by=request.user, at=timezone.now())
        except (BadInput, SheetRefused) as refusal:
            return Response({"detail": str(refusal)}, status=status.HTTP_422_UNPROCESSABLE_ENTITY)
        return Response(SheetOutput(sheet).data, status=status.HTTP_201_CREATED)


class OneSheet(APIView):
    permission_classes = [api_needs(Permission.SEE_SHEETS)]

    def get(self, request: PersonApiRequest, pk: UUID) -> Response:
        return Response(SheetOutput(get_object_or_404(queries.visible_sheets(request.user), pk=pk)).data)


class Lines(APIView):
    permission_classes = [api_needs(Permission.SEE_SHEETS)]

    def get(self, request: PersonApiRequest, pk: UUID) -> Response:
        sheet = get_object_or_404(queries.with_files(queries.visible_sheets(request.user)), pk=pk)
        page = queries.page_number(request.query_params.get("page"))
        lines, more = queries.page_of_lines(sheet, verdict=request.query_params.get("verdict", ""), page=page, size=PAGE)
        return Response({"page": page, "more": more, "lines": [LineOutput(line).data for line in lines]})


class Paper(APIView):
    permission_classes = [api_needs(Permission.SEE_SHEETS)]

    def post(self, request: PersonApiRequest, pk: UUID) -> Response:
        sheet = get_object_or_404(queries.visible_sheets(request.user), pk=pk)
        document = request_document(kind=JUDGED_SHEET, subject=str(sheet.pk), by=request.user, at=timezone.now())
        return Response({"document": str(document.pk)}, status=status.HTTP_202_ACCEPTED)


app_name = "readings-api"
urlpatterns = [
    path("sheets/", Sheets.as_view(), name="sheets"),
    path("sheets/<uuid:pk>/", OneSheet.as_view(), name="sheet"),
    path("sheets/<uuid:pk>/lines/", Lines.as_view(), name="lines"),
    path("sheets/<uuid:pk>/paper/", Paper.as_view(), name="paper"),
]
