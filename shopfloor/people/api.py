"""The session and the list of persons, for programs."""

from django.contrib.auth import login, logout
from django.middleware.csrf import get_token
from django.urls import path
from django.utils import timezone
from rest_framework import serializers
from rest_framework.exceptions import AuthenticationFailed, ErrorDetail, Throttled
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from shopfloor.people import queries, services
from shopfloor.people.errors import TooManyTries, WrongPassword
from shopfloor.people.forms import LONGEST_PASSWORD
from shopfloor.people.models import Person, RoleGrant
from shopfloor.people.permissions import ApiPublic, Permission, api_needs


class SignInInput(serializers.Serializer[None]):
    username = serializers.CharField(max_length=60)
    password = serializers.CharField(max_length=LONGEST_PASSWORD, trim_whitespace=False)


class GrantOutput(serializers.Serializer[RoleGrant]):
    role = serializers.CharField()
    granted_at = serializers.DateTimeField()


class PersonOutput(serializers.Serializer[Person]):
    id = serializers.IntegerField(source="pk")
    username = serializers.CharField()
    name = serializers.CharField()
    is_active = serializers.BooleanField()
    customer = serializers.IntegerField(source="customer_id", allow_null=True)
    roles = GrantOutput(many=True, source="roles_held")


class Session(APIView):
    """GET: who am I, and the token that unsafe requests send as X-CSRFToken. POST: sign in. DELETE: sign out."""

    permission_classes = [ApiPublic]

    def get(self, request: Request) -> Response:
        return Response(_who(request, request.user))

    def post(self, request: Request) -> Response:
        typed = SignInInput(data=request.data)
        typed.is_valid(raise_exception=True)
        try:
            person = services.sign_in(**typed.validated_data, at=timezone.now())
        except WrongPassword as wrong:
            raise AuthenticationFailed(str(wrong)) from wrong
        except TooManyTries as many:
            refused = Throttled(wait=many.seconds)
            refused.detail = ErrorDetail(str(many))
            raise refused from many
        login(request._request, person)
        return Response(_who(request, person))

    def delete(self, request: Request) -> Response:
        logout(request._request)
        return Response(status=204)


def _who(request: Request, person: object) -> dict[str, object]:
    token = get_token(request._request)
    if not isinstance(person, Person):
        return {"signed_in": False, "csrf_token": token}
    return {
        "signed_in": True,
        "csrf_token": token,
        "id": person.pk,
        "username": person.username,
        "name": person.name,
        "customer": person.customer_id,
        "roles": sorted(queries.roles_of(person)),
        "must_change_password": person.must_change_password,
    }


class Persons(APIView):
    permission_classes = [api_needs(Permission.SEE_PEOPLE)]

    def get(self, request: Request) -> Response:
        return Response([PersonOutput(person).data for person in queries.persons()])


app_name = "people-api"
urlpatterns = [
    path("session/", Session.as_view(), name="session"),
    path("persons/", Persons.as_view(), name="persons"),
]
