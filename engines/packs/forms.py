"""What a person gives on the pages of engine data. What is right is decided by the reader and the services."""

from typing import Any

from django import forms

MOST_BYTES = 5 * 1024 * 1024


class ZipField(forms.FileField):
    widget = forms.FileInput(attrs={"accept": ".zip,application/zip"})

    def clean(self, data: Any, initial: Any = None) -> Any:
        file = super().clean(data, initial)
        if file.size > MOST_BYTES:
            raise forms.ValidationError(f"{file.name} is larger than 5 MB. A pack is four small text files; zip only those.")
        return file


class PackForm(forms.Form):
    pack = ZipField(label="Zip of the pack", help_text="The zipped folder with pack.yaml, parts.csv, route.yaml and limits.csv.")


class PagesForm(forms.Form):
    """The pages ticked, by their number in the list."""

    page = forms.TypedMultipleChoiceField(
        coerce=int, error_messages={"required": "Tick each page that you held the data against."}
    )

    def __init__(self, *args: Any, count: int, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choice: Any = self.fields["page"]
        choice.choices = [(number, str(number)) for number in range(count)]
