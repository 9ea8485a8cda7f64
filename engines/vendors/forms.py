"""What is filled in about vendors and orders. The rules are in the services; a form only reads."""

from typing import Any

from django import forms

from engines.parts.services.evidence import Upload
from engines.vendors.models import OutsideWork
from engines.vendors.services import Papers

SCOPE = "A line for each kind of work, then its sorts of part: grinding: crankshaft, camshaft. In the words of the engine data."


def day(label: str, help_text: str = "", **given: Any) -> forms.DateField:
    return forms.DateField(label=label, help_text=help_text, widget=forms.DateInput(attrs={"type": "date"}), **given)


def lines(label: str, help_text: str = "", **given: Any) -> forms.CharField:
    return forms.CharField(label=label, help_text=help_text, widget=forms.Textarea(attrs={"rows": 3}), **given)


class Beside(forms.Form):
    """A form beside others on its page: its fields have ids of their own."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **{"auto_id": f"id_{type(self).__name__.lower()}_%s", **kwargs})

    def given(self) -> dict[str, Any]:
        """A valid form as the arguments of its service."""
        return dict(self.cleaned_data)


class VendorForm(forms.Form):
    name = forms.CharField(label="Name, as on its certificates", max_length=120)
    address = forms.CharField(label="Address", max_length=300, required=False)


class ApprovalForm(Beside):
    reference = forms.CharField(label="Reference of the approval", max_length=80)
    scope = lines("What it may do", SCOPE, max_length=4000)
    valid_from = day("From")
    valid_until = day("Until", "The last day on which a certificate of the vendor counts.")
    words = lines("What it rests on", "Such as an audit and its day, or the certificate that was seen.", max_length=600)


class SuspendForm(Beside):
    suspended_on = day("Suspended from")
    reason = forms.CharField(label="Why", max_length=400)


class LiftForm(Beside):
    words = forms.CharField(label="What was done, so that work may go there again", max_length=400)


class SendForm(Beside):
    words = forms.CharField(label="How it goes", max_length=400, help_text="Carrier and consignment number, or who brings it.")


class WithdrawForm(Beside):
    words = forms.CharField(label="Why it is withdrawn", max_length=400)


class BackForm(Beside):
    """One field for the number of each paper that the data ask for."""

    certificate = forms.CharField(label="Number of the vendor's certificate", max_length=80)
    dated = day("Date on the certificate")
    did = lines("What the vendor did", "As it stands on the certificate.", max_length=600)
    file = forms.FileField(label="Scan or photo of it", required=False, help_text="PDF, JPEG, PNG or WebP, at most 15 MB.")

    def __init__(self, *args: Any, order: OutsideWork, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.names = {f"paper_{index}": name for index, name in enumerate(order.evidence)}
        for key, name in self.names.items():
            self.fields[key] = forms.CharField(label=f"Number of: {name}", max_length=80)

    def given(self) -> dict[str, Any]:
        given, file = self.cleaned_data, self.cleaned_data["file"]
        papers = Papers(
            certificate=given["certificate"],
            dated=given["dated"],
            did=given["did"],
            numbers={name: given[key] for key, name in self.names.items()},
            upload=Upload(file.name, file.read()) if file else None,
        )
        return {"papers": papers}


class WithoutForm(Beside):
    without = forms.CharField(
        label="Why it comes back without its papers",
        max_length=400,
        help_text="It is then never as asked: an inspector raises it, and somebody has to decide.",
    )
