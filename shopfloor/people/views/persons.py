"""The list of persons, and one person's account and roles."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from shopfloor.people import queries, services
from shopfloor.people.errors import Refused
from shopfloor.people.forms import CertificateForm, LinkForm, PersonForm, RoleForm, typed
from shopfloor.people.models import Person, RoleGrant
from shopfloor.people.permissions import Permission, PersonRequest, needs


@needs(Permission.SEE_PEOPLE)
@require_safe
def persons(request: PersonRequest) -> HttpResponse:
    return render(request, "people/persons.html", {"persons": queries.persons()})


@needs(Permission.ADMINISTER_PEOPLE)
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def add(request: PersonRequest) -> HttpResponse:
    form = PersonForm(typed(request))
    if request.method == "POST" and form.is_valid():
        try:
            person, password = services.add_person(**form.cleaned_data, by=request.user, at=timezone.now())
        except Refused as refused:
            form.add_error(None, str(refused))
            return render(request, "people/add_person.html", {"form": form}, status=refused.status)
        return render(request, "people/first_password.html", {"person": person, "password": password}, status=201)
    return render(request, "people/add_person.html", {"form": form}, status=400 if form.is_bound else 200)


@needs(Permission.SEE_PEOPLE)
@require_safe
def person(request: PersonRequest, pk: int) -> HttpResponse:
    return _person_page(request, _person(pk))


def _person_page(request: PersonRequest, person: Person, refused: str = "", status: int = 200) -> HttpResponse:
    context = {
        "person": person,
        "grants": queries.grants_of(person),
        "role_form": RoleForm(held=queries.roles_of(person)),
        "link_form": LinkForm(initial={"customer": person.customer_id}),
        "certificate_form": CertificateForm(initial={"kind": person.certificate_kind, "number": person.certificate_number}),
        "acts_for_customer": queries.acts_for_customer(person),
        "own": person == request.user,
        "refused": refused,
    }
    return render(request, "people/person.html", context, status=status)


@needs(Permission.ADMINISTER_PEOPLE)
@require_POST
def grant_role(request: PersonRequest, pk: int) -> HttpResponse:
    form = RoleForm(request.POST)
    if not form.is_valid():
        return _person_page(request, _person(pk), "Choose one of the roles in the list.", 400)
    return _change(request, _person(pk), services.grant_role, "Role granted.", role=form.cleaned_data["role"])


@needs(Permission.ADMINISTER_PEOPLE)
@require_POST
def end_role(request: PersonRequest, pk: int, grant_pk: int) -> HttpResponse:
    grant = get_object_or_404(RoleGrant, pk=grant_pk, person=pk)
    return _change(request, _person(pk), services.end_role, "Role ended.", grant=grant)


@needs(Permission.ADMINISTER_PEOPLE)
@require_POST
def link(request: PersonRequest, pk: int) -> HttpResponse:
    form = LinkForm(request.POST)
    if not form.is_valid():
        return _person_page(request, _person(pk), "Choose one of the customers in the list.", 400)
    return _change(request, _person(pk), services.link_to_customer, "Customer changed.", customer=form.cleaned_data["customer"])


@needs(Permission.ADMINISTER_PEOPLE)
@require_POST
def set_certificate(request: PersonRequest, pk: int) -> HttpResponse:
    form = CertificateForm(request.POST)
    if not form.is_valid():
        return _person_page(request, _person(pk), "Kind and number have at most 60 letters each. Nothing was changed.", 400)
    return _change(request, _person(pk), services.set_certificate, "Certificate kept.", **form.cleaned_data)


@needs(Permission.ADMINISTER_PEOPLE)
@require_POST
def deactivate(request: PersonRequest, pk: int) -> HttpResponse:
    return _change(request, _person(pk), services.deactivate, "Deactivated: this person can no longer sign in.")


@needs(Permission.ADMINISTER_PEOPLE)
@require_POST
def reactivate(request: PersonRequest, pk: int) -> HttpResponse:
    return _change(request, _person(pk), services.reactivate, "Reactivated: this person can sign in again.")


@needs(Permission.ADMINISTER_PEOPLE)
@require_POST
def erase(request: PersonRequest, pk: int) -> HttpResponse:
    person = _person(pk)
    if request.POST.get("confirm") != person.username:
        return _person_page(request, person, "Nothing was erased: type the person's sign-in name to confirm.", 400)
    return _change(request, person, services.erase_person, "Person erased.")


@needs(Permission.ADMINISTER_PEOPLE)
@never_cache
@require_POST
def reset_password(request: PersonRequest, pk: int) -> HttpResponse:
    person = _person(pk)
    try:
        password = services.reset_password(person=person, by=request.user, at=timezone.now())
    except Refused as refused:
        return _person_page(request, person, str(refused), refused.status)
    return render(request, "people/first_password.html", {"person": person, "password": password})


def _person(pk: int) -> Person:
    return get_object_or_404(queries.persons(), pk=pk)


def _change(request: PersonRequest, person: Person, act: Callable[..., object], done: str, **given: object) -> HttpResponse:
    try:
        act(person=person, by=request.user, at=timezone.now(), **given)
    except Refused as refused:
        return _person_page(request, _person(person.pk), str(refused), refused.status)
    messages.success(request, done)
    return redirect("people:person", pk=person.pk)
