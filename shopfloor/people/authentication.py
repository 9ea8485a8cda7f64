"""How a session becomes a person, for pages and for the API."""

from django.contrib.auth.backends import BaseBackend
from django.contrib.auth.models import AnonymousUser
from rest_framework.authentication import SessionAuthentication
from rest_framework.request import Request

from shopfloor.people.models import Person


class PersonBackend(BaseBackend):
    """Finds the person of a session. Passwords are checked in `services.sign_in` only, which counts the tries."""

    def get_user(self, user_id: int) -> Person | None:
        """None for an inactive person, so that their sessions end at the next request."""
        return Person.objects.filter(pk=user_id, is_active=True).first()


class ShopSession(SessionAuthentication):
    """Session of the pages. The forgery check also guards those who are not signed in yet: they may be signing in."""

    def authenticate(self, request: Request) -> tuple[Person, None] | None:
        self.enforce_csrf(request)
        person = getattr(request._request, "user", AnonymousUser())
        return (person, None) if isinstance(person, Person) else None

    def authenticate_header(self, request: Request) -> str:
        """Makes the answer to a missing session 401 and not 403."""
        return "Session"
