"""Signing in and out, and one's own password."""

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import login, logout, update_session_auth_hash
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render, resolve_url
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from shopfloor.people import services
from shopfloor.people.errors import Refused, TooManyTries
from shopfloor.people.forms import OwnPasswordForm, SignInForm, typed
from shopfloor.people.permissions import PersonRequest, public, signed_in_before_own_password


@public
@never_cache
@sensitive_post_parameters("password")
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    form = SignInForm(typed(request))
    if request.method != "POST":
        return _sign_in_page(request, form, 200)
    if not form.is_valid():
        return _sign_in_page(request, form, 400)
    try:
        person = services.sign_in(**form.cleaned_data, at=timezone.now())
    except Refused as refused:
        form.add_error(None, str(refused))
        return _sign_in_page(request, form, refused.status, refused)
    login(request, person)
    return redirect(_wanted(request) or resolve_url(settings.LOGIN_REDIRECT_URL))


def _sign_in_page(request: HttpRequest, form: SignInForm, status: int, refused: Refused | None = None) -> HttpResponse:
    page = render(request, "people/sign_in.html", {"form": form, "next": _wanted(request)}, status=status)
    if isinstance(refused, TooManyTries):
        page.headers["Retry-After"] = str(refused.seconds)
    return page


def _wanted(request: HttpRequest) -> str:
    """The page the reader was sent away from; only ever one of ours."""
    wanted = request.POST.get("next") or request.GET.get("next") or ""
    ours = url_has_allowed_host_and_scheme(wanted, allowed_hosts={request.get_host()}, require_https=request.is_secure())
    return wanted if ours else ""


@public
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    logout(request)
    return redirect("people:sign-in")


@signed_in_before_own_password
@never_cache
@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def own_password(request: PersonRequest) -> HttpResponse:
    person = request.user
    form = OwnPasswordForm(typed(request), person=person)
    if request.method == "POST" and form.is_valid():
        current, new = form.cleaned_data["current"], form.cleaned_data["new"]
        try:
            changed = services.change_own_password(current=current, new=new, by=person, at=timezone.now())
        except Refused as refused:
            form.add_error("current", str(refused))
            return render(request, "people/own_password.html", {"form": form}, status=refused.status)
        update_session_auth_hash(request, changed)
        messages.success(request, "Your password is changed. Every other session of yours has ended.")
        return redirect(_wanted(request) or resolve_url(settings.LOGIN_REDIRECT_URL))
    return render(request, "people/own_password.html", {"form": form}, status=400 if form.is_bound else 200)
