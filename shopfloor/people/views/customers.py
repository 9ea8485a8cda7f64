"""The list of customers and who acts for each."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from shopfloor.people import queries, services
from shopfloor.people.errors import Refused
from shopfloor.people.forms import CustomerForm
from shopfloor.people.permissions import Permission, PersonRequest, needs


@needs(Permission.SEE_PEOPLE)
@require_safe
def customers(request: PersonRequest) -> HttpResponse:
    return _page(request, CustomerForm(), 200)


@needs(Permission.ADMINISTER_PEOPLE)
@require_POST
def add(request: PersonRequest) -> HttpResponse:
    form = CustomerForm(request.POST)
    if not form.is_valid():
        return _page(request, form, 400)
    try:
        services.add_customer(name=form.cleaned_data["name"], by=request.user, at=timezone.now())
    except Refused as refused:
        form.add_error("name", str(refused))
        return _page(request, form, refused.status)
    messages.success(request, "Customer added.")
    return redirect("people:customers")


def _page(request: PersonRequest, form: CustomerForm, status: int) -> HttpResponse:
    return render(request, "people/customers.html", {"customers": queries.customers(), "form": form}, status=status)
