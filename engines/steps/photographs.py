"""A photo taken at a step: chosen in a form, kept under its hash. Its entry names it as `photo`, so that the page shows it."""

from datetime import datetime
from typing import Any

from django import forms

from engines.steps.work import StepRefused
from shopfloor.documents.photos import PhotoRefused, store_photo


def photo_field(label: str = "Photo", *, required: bool = False) -> forms.FileField:
    widget = forms.FileInput(attrs={"accept": "image/jpeg,image/png,image/webp", "capture": "environment"})
    return forms.FileField(label=label, required=required, widget=widget)


def keep_photo(file: Any, at: datetime) -> str:
    """The SHA-256 that it is kept under; blank where there is none. Raises StepRefused."""
    if not file:
        return ""
    try:
        return store_photo(file.read(), name=file.name, at=at).sha256
    except PhotoRefused as refused:
        raise StepRefused(str(refused)) from None
