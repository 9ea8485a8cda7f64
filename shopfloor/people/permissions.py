"""Who may do what, decided in one table, and the declarations that every view carries."""

from collections.abc import Callable, Mapping
from functools import wraps
from typing import TYPE_CHECKING, Any
from urllib.parse import urlsplit

from django.core.exceptions import PermissionDenied
from django.db import models
from django.http import HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.shortcuts import redirect, resolve_url
from django.utils.http import urlencode
from rest_framework.permissions import SAFE_METHODS, BasePermission
from rest_framework.request import Request

from shopfloor.people.models import Person, Role
from shopfloor.people.queries import roles_of

if TYPE_CHECKING:
    from django.contrib.auth.models import AnonymousUser

View = Callable[..., HttpResponseBase]
PUBLIC, SIGNED_IN = "public", "signed in"
CHANGE_FIRST = "Choose your own password first, on the page Change password."


class PersonRequest(HttpRequest):
    """The request of a view that needs a permission: its user is a person."""

    user: Person


class PersonApiRequest(Request):
    """The same for a view of the API."""

    user: Person


class Permission(models.TextChoices):
    JUDGE_SHEETS = "judge_sheets", "judge sheets of readings"
    SEE_SHEETS = "see_sheets", "see judged sheets"
    SEE_GAUGES = "see_gauges", "see the gauge register"
    KEEP_GAUGES = "keep_gauges", "keep the gauge register"
    ADMINISTER_PEOPLE = "administer_people", "administer persons and customers"
    SEE_PEOPLE = "see_people", "see the list of persons"
    READ_LEDGER = "read_ledger", "read the ledger"
    SEE_GALLERY = "see_gallery", "see the design gallery"
    SEE_DATA = "see_data", "see engine data"
    LOAD_DATA = "load_data", "load engine data"
    APPROVE_DATA = "approve_data", "check and approve engine data"
    SEE_PARTS = "see_parts", "see parts and their histories"
    KEEP_PARTS = "keep_parts", "book parts in, fit and scrap them"
    SEE_VENDORS = "see_vendors", "see vendors and the work that is out"
    KEEP_VENDORS = "keep_vendors", "approve and suspend vendors"
    SEND_OUT = "send_out", "send parts to vendors and book them back in"
    SEE_VISITS = "see_visits", "see engines in the shop"
    SEE_WORK = "see_work", "see the work on an engine"
    RECEIVE_ENGINES = "receive_engines", "receive engines"
    DO_WORK = "do_work", "carry out and sign operations"
    ACCEPT_WORK = "accept_work", "accept hold points"
    DISPOSE = "dispose", "decide discrepancies"
    SECOND_CONCESSION = "second_concession", "give the second signature on a concession"
    MOVE_AREAS = "move_areas", "move areas to another stage"
    RELEASE = "release", "release engines"
    AUTHORISE = "authorise", "authorise persons for kinds of work"
    ANSWER_NOTICES = "answer_notices", "say that a notice to the customer was seen"
    ASK_CUSTOMER = "ask_customer", "ask a customer about more work"
    ANSWER_REQUESTS = "answer_requests", "answer for the customer about more work"
    RUN_ENGINES = "run_engines", "run engines on the stand"


SHOP = frozenset({Role.MANAGER, Role.MECHANIC, Role.INSPECTOR, Role.STOREKEEPER})
EVERYONE = frozenset(Role)
HOLDERS: Mapping[Permission, frozenset[Role]] = {
    Permission.JUDGE_SHEETS: frozenset({Role.MANAGER, Role.MECHANIC, Role.INSPECTOR}),
    Permission.SEE_SHEETS: EVERYONE,  # a customer only those of their own customer: queries.of_customers_seen_by
    Permission.SEE_GAUGES: SHOP | {Role.AUDITOR},
    Permission.KEEP_GAUGES: frozenset({Role.MANAGER, Role.INSPECTOR, Role.STOREKEEPER}),
    Permission.ADMINISTER_PEOPLE: frozenset({Role.MANAGER}),
    Permission.SEE_PEOPLE: frozenset({Role.MANAGER, Role.AUDITOR}),
    Permission.READ_LEDGER: frozenset({Role.MANAGER, Role.AUDITOR, Role.INSPECTOR}),
    Permission.SEE_GALLERY: EVERYONE,
    Permission.SEE_DATA: SHOP | {Role.AUDITOR},
    Permission.LOAD_DATA: frozenset({Role.MANAGER, Role.INSPECTOR}),
    Permission.APPROVE_DATA: frozenset({Role.INSPECTOR}),
    Permission.SEE_PARTS: SHOP | {Role.AUDITOR},
    Permission.KEEP_PARTS: frozenset({Role.MANAGER, Role.STOREKEEPER}),
    Permission.SEE_VENDORS: SHOP | {Role.AUDITOR},
    Permission.KEEP_VENDORS: frozenset({Role.MANAGER, Role.STOREKEEPER}),
    Permission.SEND_OUT: SHOP,
    Permission.SEE_VISITS: EVERYONE,  # a customer only own engines: queries.of_customers_seen_by
    Permission.SEE_WORK: SHOP | {Role.AUDITOR},
    Permission.RECEIVE_ENGINES: SHOP,
    Permission.DO_WORK: frozenset({Role.MECHANIC, Role.INSPECTOR}),
    Permission.ACCEPT_WORK: frozenset({Role.INSPECTOR}),
    Permission.DISPOSE: frozenset({Role.INSPECTOR}),
    Permission.SECOND_CONCESSION: frozenset({Role.INSPECTOR, Role.MANAGER}),
    Permission.MOVE_AREAS: frozenset({Role.MANAGER, Role.MECHANIC, Role.INSPECTOR}),
    Permission.RELEASE: frozenset({Role.INSPECTOR}),  # and only with an open authorisation: engines.release.authority
    Permission.AUTHORISE: frozenset({Role.MANAGER}),
    Permission.ANSWER_NOTICES: frozenset({Role.CUSTOMER}),
    Permission.ASK_CUSTOMER: frozenset({Role.MANAGER, Role.INSPECTOR}),
    Permission.ANSWER_REQUESTS: frozenset({Role.CUSTOMER}),  # of own engines only: inspection.services.answer
    Permission.RUN_ENGINES: frozenset({Role.MECHANIC, Role.INSPECTOR}),
}


def may(person: "Person | AnonymousUser", permission: Permission) -> bool:
    return isinstance(person, Person) and person.is_active and not HOLDERS[permission].isdisjoint(roles_of(person))


def refusal(permission: Permission) -> str:
    """What to tell a person who lacks the permission: what it is, who holds it, what to do."""
    holders = ", ".join(role.label for role in Role if role in HOLDERS[permission])
    return f"Your account may not {permission.label}. Held by: {holders}. Ask a shop manager if you need it."


def public(view: View) -> View:
    """Anyone may ask, signed in or not."""
    view.declared_permission = PUBLIC  # type: ignore[attr-defined]
    return view


def signed_in(view: View) -> View:
    return _guarded(view, SIGNED_IN)


def signed_in_before_own_password(view: View) -> View:
    """Signed in, and reachable while the first password is still the one the manager handed out."""
    return _guarded(view, SIGNED_IN, first_password_will_do=True)


def needs(permission: Permission) -> Callable[[View], View]:
    return lambda view: _guarded(view, permission)


def _guarded(view: View, declared: str, *, first_password_will_do: bool = False) -> View:
    @wraps(view)
    def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
        person = request.user
        if not isinstance(person, Person):
            return _to_page(request, "people:sign-in", 401, "Sign in first.")
        if person.must_change_password and not first_password_will_do:
            return _to_page(request, "people:own-password", 403, CHANGE_FIRST)
        if isinstance(declared, Permission) and not may(person, declared):
            if _wants_data(request):
                return JsonResponse({"detail": refusal(declared)}, status=403)
            raise PermissionDenied(refusal(declared))
        return view(request, *args, **kwargs)

    guarded.declared_permission = declared  # type: ignore[attr-defined]
    return guarded


def _wants_data(request: HttpRequest) -> bool:
    return request.get_preferred_type(["text/html", "application/json"]) == "application/json"


def _to_page(request: HttpRequest, name: str, status: int, sentence: str) -> HttpResponse:
    """A page is sent on to `name`; a fragment and a program are told with a status that they understand."""
    if _wants_data(request):
        return JsonResponse({"detail": sentence}, status=status)
    if "HX-Request" in request.headers:
        shown = urlsplit(request.headers.get("HX-Current-URL", "/")).path
        return HttpResponse(sentence, status=status, headers={"HX-Redirect": _with_next(name, shown)})
    if request.method not in ("GET", "HEAD"):
        return redirect(name)
    return redirect(_with_next(name, request.get_full_path()))


def _with_next(name: str, path: str) -> str:
    return f"{resolve_url(name)}?{urlencode({'next': path})}"


class Deny(BasePermission):
    """The default of every API view: nobody, until the view declares what it needs."""

    message = "Nobody may use this address yet. Report it to whoever runs this installation."

    def has_permission(self, request: Request, view: object) -> bool:
        return False


class ApiPublic(BasePermission):
    declared_permission = PUBLIC


class ApiSignedIn(BasePermission):
    declared_permission: str = SIGNED_IN
    message = CHANGE_FIRST

    def has_permission(self, request: Request, view: object) -> bool:
        return isinstance(request.user, Person) and not request.user.must_change_password


def api_needs(permission: Permission, *, to_write: Permission | None = None) -> type[BasePermission]:
    """`to_write` is needed in place of `permission` by methods that change something."""

    class Needs(ApiSignedIn):
        declared_permission = permission

        def has_permission(self, request: Request, view: object) -> bool:
            if not super().has_permission(request, view):
                return False
            needed = permission if request.method in SAFE_METHODS else to_write or permission
            self.message = refusal(needed)
            return may(request.user, needed)

    return Needs
