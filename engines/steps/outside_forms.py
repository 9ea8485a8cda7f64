"""The two questions of outside work: which vendor does it, and is what came back as asked."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.datastructures import MultiValueDict

from engines.steps.asking import Question, one_of
from engines.steps.outside import STAYS, Standing
from engines.steps.photographs import photo_field
from engines.steps.work import Work
from engines.vendors.models import Seen, Vendor
from engines.vendors.queries import vendors
from engines.vendors.standing import reason_against_work


class LookQuestion(Question):
    """Its answer may bring a photo."""

    def __init__(self, data: Mapping[str, Any] | None, files: Any, *, asked: str, **fields: forms.Field) -> None:
        super().__init__(data, asked=asked, **fields)
        self.files = files or MultiValueDict()


def order_question(work: Work, asked: Standing, data: Mapping[str, Any] | None) -> Question:
    """Every vendor stands there, whoever is not approved for this with the reason; none is chosen."""
    details, today = work.operation.details, timezone.localdate(work.at)
    choices = [(str(each.pk), _choice(each, details, today)) for each in vendors()]
    stay: dict[str, forms.Field] = {}
    if asked.may_stay:
        choices.append((STAYS, f"It stays here: {asked.may_stay}"))
        stay["reason"] = forms.CharField(label="Why it stays here", required=False, max_length=400)
    answer = forms.ChoiceField(
        label=f"{work.words(asked.spot)}: {details['asked'].rstrip('.')}. Which vendor?",
        choices=choices,
        widget=forms.RadioSelect,
        help_text=f"{details['work']} of: {details['part']}.",
    )
    due = forms.DateField(label="Due back on", required=False, widget=forms.DateInput(attrs={"type": "date"}))
    return Question(data, asked=asked.question, answer=answer, due_on=due, **stay)


def look_question(work: Work, asked: Standing, data: Mapping[str, Any] | None, files: Any) -> Question:
    vendor = asked.order.vendor.name if asked.order else ""
    label = f"{work.words(asked.spot)}, back from {vendor}: {work.operation.details['asked']}"
    words = forms.CharField(label="What you saw", required=False, max_length=400, help_text="Needed where it is wrong.")
    answer = one_of(label, *Seen.values, help_text="An inspector says so.")
    return LookQuestion(data, files, asked=asked.question, answer=answer, words=words, photo=photo_field())


def _choice(vendor: Vendor, details: Mapping[str, Any], today: date) -> str:
    reason = reason_against_work(vendor, today, details["work"], details["part"])
    return f"{vendor.name}. Not for this: {reason}" if reason else vendor.name
