"""Documents for programs: the state of one, and its file."""

from uuid import UUID

from django.http import Http404, HttpResponseBase
from django.urls import path
from rest_framework import serializers
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopfloor.documents import queries
from shopfloor.documents.files import FileAltered
from shopfloor.documents.models import Document
from shopfloor.documents.sending import as_download
from shopfloor.people.models import Person
from shopfloor.people.permissions import ApiSignedIn


class DocumentOutput(serializers.Serializer[Document]):
    id = serializers.UUIDField(source="pk")
    kind = serializers.CharField()
    title = serializers.CharField()
    subject = serializers.CharField()
    requested_at = serializers.DateTimeField()
    state = serializers.CharField(source="job.state")
    attempt = serializers.IntegerField(source="job.attempt")
    progress_done = serializers.IntegerField(source="job.progress_done")
    progress_total = serializers.IntegerField(source="job.progress_total")
    reason = serializers.CharField(source="job.reason")
    sha256 = serializers.CharField(source="file.sha256", default=None)
    size = serializers.IntegerField(source="file.size", default=None)
    rendered_at = serializers.DateTimeField()


class DocumentState(APIView):
    permission_classes = [ApiSignedIn]

    def get(self, request: Request, pk: UUID) -> Response:
        return Response(DocumentOutput(_fetch(request, pk)).data)


class DocumentFile(APIView):
    permission_classes = [ApiSignedIn]

    def get(self, request: Request, pk: UUID) -> HttpResponseBase:
        try:
            return as_download(request._request, _fetch(request, pk))
        except FileAltered as altered:
            return Response({"detail": str(altered)}, status=500)


def _fetch(request: Request, pk: UUID) -> Document:
    assert isinstance(request.user, Person)
    try:
        return queries.document_for(request.user, pk)
    except queries.NoSuchDocument:
        raise Http404("There is no such paper.") from None


app_name = "documents-api"
urlpatterns = [
    path("<uuid:pk>/", DocumentState.as_view(), name="state"),
    path("<uuid:pk>/download/", DocumentFile.as_view(), name="download"),
]
