"""A person types their password again before they sign."""

from django.utils import timezone

from engines.benches.forms import PasswordForm
from shopfloor.people.errors import Refused
from shopfloor.people.permissions import PersonRequest
from shopfloor.people.services import confirm_password


def refusal_of(request: PersonRequest, form: PasswordForm) -> int | None:
    """The status to answer with, the form saying why; None when it is filled in and the password is right.

    Asked before the receipt, because a try at a password is counted whatever becomes of the act.
    """
    if not form.is_valid():
        return 422
    try:
        confirm_password(password=form.cleaned_data["password"], by=request.user, at=timezone.now())
    except Refused as refused:
        form.add_error("password", str(refused))
        return refused.status
    return None
