"""What a person may type on the pages of this room. The rules are in the services; a form only reads."""

from collections.abc import Iterable

from django import forms
from django.contrib.auth.password_validation import validate_password
from django.core.validators import RegexValidator
from django.http import HttpRequest, QueryDict

from shopfloor.people.models import Customer, Person, Role
from shopfloor.people.queries import roles_to_grant

LONGEST_PASSWORD = 200
USERNAME = RegexValidator(
    r"^[A-Za-z0-9][A-Za-z0-9._-]*\Z", "Use letters, digits, dot, dash and underscore only, and begin with a letter or digit."
)


def typed(request: HttpRequest) -> QueryDict | None:
    """What was sent, even if it is nothing at all; None when the page is only looked at."""
    return request.POST if request.method == "POST" else None


class SignInForm(forms.Form):
    username = forms.CharField(label="Name to sign in with", max_length=60)
    password = forms.CharField(label="Password", max_length=LONGEST_PASSWORD, strip=False, widget=forms.PasswordInput)

    def __init__(self, *args: object, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        self.fields["username"].widget.attrs |= {"autocomplete": "username", "autocapitalize": "none", "autofocus": True}
        self.fields["password"].widget.attrs |= {"autocomplete": "current-password"}


class OwnPasswordForm(forms.Form):
    current = forms.CharField(label="Current password", max_length=LONGEST_PASSWORD, strip=False, widget=forms.PasswordInput)
    new = forms.CharField(
        label="New password",
        help_text="At least 10 characters, not a common password, not like your name.",
        max_length=LONGEST_PASSWORD,
        strip=False,
        widget=forms.PasswordInput,
    )
    again = forms.CharField(label="New password again", max_length=LONGEST_PASSWORD, strip=False, widget=forms.PasswordInput)

    def __init__(self, *args: object, person: Person, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        self.person = person
        self.fields["current"].widget.attrs |= {"autocomplete": "current-password"}
        for name in ("new", "again"):
            self.fields[name].widget.attrs |= {"autocomplete": "new-password"}

    def clean_new(self) -> str:
        new: str = self.cleaned_data["new"]
        validate_password(new, self.person)
        if new == self.cleaned_data.get("current"):
            raise forms.ValidationError("The new password must differ from the current one.")
        return new

    def clean_again(self) -> str:
        again: str = self.cleaned_data["again"]
        if "new" in self.cleaned_data and again != self.cleaned_data["new"]:
            raise forms.ValidationError("The two new passwords differ. Type the new one again.")
        return again


class PersonForm(forms.Form):
    username = forms.CharField(label="Name to sign in with", max_length=60, validators=[USERNAME])
    name = forms.CharField(label="Full name", max_length=120)
    certificate_kind = forms.CharField(label="Kind of certificate", max_length=60, required=False)
    certificate_number = forms.CharField(label="Certificate number", max_length=60, required=False)
    role = forms.TypedChoiceField(
        label="First role",
        choices=[("", "none yet"), *Role.choices],
        coerce=Role,
        empty_value=None,
        required=False,
        help_text="More roles can be granted on the person's page.",
    )


class CertificateForm(forms.Form):
    kind = forms.CharField(label="Kind of certificate", max_length=60, required=False)
    number = forms.CharField(
        label="Certificate number",
        max_length=60,
        required=False,
        help_text="Both stand on every release that this person signs. Blank when there is none.",
    )


class RoleForm(forms.Form):
    role = forms.TypedChoiceField(label="Role to grant", choices=Role.choices, coerce=Role)

    def __init__(self, *args: object, held: Iterable[Role] = (), **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        if not self.is_bound:
            self.fields["role"].choices = [(role.value, role.label) for role in roles_to_grant(held)]  # type: ignore[attr-defined]


class CustomerForm(forms.Form):
    name = forms.CharField(label="Customer's name", max_length=120)


class LinkForm(forms.Form):
    customer = forms.ModelChoiceField(
        label="Acts for customer", queryset=Customer.objects.order_by("name"), required=False, empty_label="no customer"
    )
