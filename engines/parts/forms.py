"""What the storekeeper fills in. The rules are in the services; a form only reads."""

from django import forms

from engines.parts.models import Tracking

KINDS = [
    (Tracking.SERIAL, "one part with its serial"),
    (Tracking.MARK, "one part that we mark"),
    (Tracking.LOT, "a lot of equal parts"),
]


class EvidenceForm(forms.Form):
    kind = forms.CharField(
        label="What the evidence is", max_length=60, help_text="Such as release certificate, conformity statement."
    )
    number = forms.CharField(label="Its number", max_length=80)
    issued_by = forms.CharField(label="Issued by", max_length=120, required=False)
    issued_on = forms.DateField(label="Issued on", required=False, widget=forms.DateInput(attrs={"type": "date"}))
    file = forms.FileField(label="Scan or photo", required=False, help_text="PDF, JPEG, PNG or WebP, at most 15 MB.")


class ItemForm(forms.Form):
    part_number = forms.CharField(max_length=60)
    name = forms.CharField(label="What it is", max_length=120)
    tracking = forms.ChoiceField(label="Known as", choices=KINDS, widget=forms.RadioSelect)
    serial = forms.CharField(max_length=60, required=False)
    mark = forms.CharField(label="Mark, or number of the lot", max_length=60, required=False)
    quantity = forms.IntegerField(initial=1, min_value=1, max_value=100_000, help_text="More than one only for a lot.")


class ScrapForm(forms.Form):
    reason = forms.CharField(label="Why it is scrapped", max_length=600)
