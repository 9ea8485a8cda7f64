"""What a person gives on the pages of a draft of a route. What is right is decided by the reader of packs."""

from typing import Any

from django import forms

from engines.catalogue.data import REASONS, SCOPES, PackData
from engines.packs.operation_forms import OperationForm, line, word


class RevisionForm(forms.Form):
    revision = forms.CharField(label="Revision of the data with the new route", max_length=40)


class SeenForm(forms.Form):
    """The version that the person has before them."""

    seen = forms.IntegerField(widget=forms.HiddenInput, min_value=1)


class SendForm(SeenForm, RevisionForm):
    field_order = ("revision", "seen")


class MoveForm(SeenForm):
    to = forms.IntegerField(widget=forms.HiddenInput, min_value=0)


def yaml_field(label: str, rows: int, **more: Any) -> forms.CharField:
    return forms.CharField(label=label, strip=False, widget=forms.Textarea(attrs={"rows": rows, "spellcheck": "false"}), **more)


class TextForm(SeenForm):
    text = yaml_field("The route as YAML", 30, required=False)
    file = forms.FileField(
        label="Or a file in its place",
        required=False,
        help_text="route.yaml as it was downloaded, changed elsewhere.",
        widget=forms.FileInput(attrs={"accept": ".yaml,.yml,text/yaml"}),
    )

    def clean_file(self) -> str | None:
        """The file as text, to take the place of what stands in the field."""
        file = self.cleaned_data["file"]
        if file is None:
            return None
        try:
            return str(file.read().decode("utf-8-sig"))
        except UnicodeDecodeError:
            raise forms.ValidationError(f"{file.name} is not UTF-8 text. Save it as UTF-8.") from None


class EntryForm(SeenForm):
    """One operation as text, where a form of fields would lose some of it."""

    entry = yaml_field("The operation as YAML", 20)


class RouteOperationForm(OperationForm, SeenForm):
    code = line("Code")
    area = word("Area", [])
    scopes = forms.MultipleChoiceField(
        label="Only for a visit of this scope",
        required=False,
        choices=[(each, each) for each in SCOPES],
        widget=forms.CheckboxSelectMultiple,
    )
    reasons = forms.MultipleChoiceField(
        label="Only for an engine received for",
        required=False,
        choices=[(each, each) for each in REASONS],
        widget=forms.CheckboxSelectMultiple,
    )
    finds = word("What it finds when it is not accepted", [(each, each) for each in REASONS], needed=False)

    field_order = ("code", "area", "stage", "kind", "title", "words")

    def __init__(self, *args: Any, data: PackData, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        areas = [("", "choose"), *((area.code, area.name) for area in data.areas)]
        given = str(self["area"].value() or "")
        more = [] if given in dict(areas) else [(given, f"{given} (not known)")]
        widget: Any = self.fields["area"].widget
        widget.choices = [*areas, *more]

    @classmethod
    def initial_of(cls, fields: dict[str, Any]) -> dict[str, Any]:
        """The fields of an entry as they stand in the form."""
        return {**fields, **{name: "\n".join(fields.get(name, ())) for name in cls.LISTS}}
