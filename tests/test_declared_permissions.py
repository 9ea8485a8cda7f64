"""Every address declares who may ask it; one that forgets fails here."""

from django.http import HttpResponse
from django.urls import path
from django.urls.resolvers import RegexPattern, URLResolver
from rest_framework.response import Response
from rest_framework.views import APIView

from shopfloor.people.permissions import Permission, api_needs, needs
from tests.addresses import patterns


def undeclared(entries):
    return [name for name, entry in entries if not _declares(entry.callback)]


def _declares(callback):
    api = getattr(callback, "cls", None)
    if api is None:
        return hasattr(callback, "declared_permission")
    return bool(api.permission_classes) and all(hasattr(one, "declared_permission") for one in api.permission_classes)


def test_every_address_declares_a_permission():
    assert undeclared(patterns()) == []


def _forgetful(request):
    return HttpResponse("anybody may read this")


class _ForgetfulApi(APIView):
    def get(self, request):
        return Response("nobody may read this")


class _OpenApi(_ForgetfulApi):
    permission_classes = []


class _DeclaredApi(_ForgetfulApi):
    permission_classes = [api_needs(Permission.READ_LEDGER)]


PLANTED = [
    path("forgetful/", _forgetful, name="forgetful"),
    path("forgetful-api/", _ForgetfulApi.as_view(), name="forgetful-api"),
    path("open-api/", _OpenApi.as_view(), name="open-api"),
    path("declared/", needs(Permission.READ_LEDGER)(_forgetful), name="declared"),
    path("declared-api/", _DeclaredApi.as_view(), name="declared-api"),
]


def test_the_guard_finds_planted_views_that_forgot():
    root = URLResolver(RegexPattern(r"^/"), PLANTED)
    assert undeclared(patterns(root)) == ["forgetful", "forgetful-api", "open-api"]


def test_an_api_view_that_forgot_answers_nobody(rf):
    assert _ForgetfulApi.as_view()(rf.get("/")).status_code == 401
