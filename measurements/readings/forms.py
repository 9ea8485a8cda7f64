"""What a person fills in to have a sheet judged."""

from typing import Any

from django import forms

from measurements.readings.services import Upload
from shopfloor.people.models import Customer

MOST_BYTES = 2 * 1024 * 1024


class CsvField(forms.FileField):
    widget = forms.FileInput(attrs={"accept": ".csv,text/csv"})

    def clean(self, data: Any, initial: Any = None) -> Any:
        file = super().clean(data, initial)
        if file.size > MOST_BYTES:
            raise forms.ValidationError(
                f"{file.name} is larger than 2 MB. Split it, or run manage.py judge on it: that has no such limit."
            )
        return file


class SheetForm(forms.Form):
    title = forms.CharField(max_length=120, help_text="What was measured, so that it is found again.")
    customer = forms.ModelChoiceField(
        Customer.objects.order_by("name"), required=False, empty_label="the shop only", help_text="Who else may see it."
    )
    limits = CsvField(label="Limit table", help_text="One line for each characteristic and each fit.")
    readings = CsvField(label="Readings", help_text="One line for each row and position.")


def read_form(form: SheetForm) -> dict[str, Any]:
    """A valid form as the arguments of `judge_sheet`."""
    given = form.cleaned_data
    uploads = {name: Upload(given[name].name, given[name].read()) for name in ("limits", "readings")}
    return {"title": given["title"], "customer": given["customer"], **uploads}
