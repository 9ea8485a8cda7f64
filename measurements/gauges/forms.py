"""What a person may type on the pages of the register. The rules are in the services; a form only reads."""

from typing import Any

from django import forms

from measurements.gauges.models import FIGURE, Calibration, Gauge
from measurements.metrology.units import DIMENSIONS

UNITS = [(dimension, [(unit, unit) for unit in units]) for dimension, units in DIMENSIONS.items()]


def figure(label: str, help_text: str) -> forms.CharField:
    return forms.CharField(
        label=label,
        help_text=help_text,
        max_length=FIGURE,
        widget=forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"}),
    )


def day(label: str) -> forms.DateField:
    return forms.DateField(label=label, widget=forms.DateInput(attrs={"type": "date"}))


class GaugeForm(forms.Form):
    number = forms.CharField(label="Number marked on the gauge", max_length=40)
    description = forms.CharField(label="What it is", max_length=120, help_text="Such as outside micrometer, 2 to 3 in.")
    unit = forms.ChoiceField(label="Unit it reads in", choices=UNITS)
    range_min = figure("Least reading", "In its own unit.")
    range_max = figure("Greatest reading", "In its own unit.")
    resolution = figure("Resolution", "The smallest step it shows, in its own unit.")


class CalibrationForm(forms.Form):
    done_on = day("Calibrated on")
    due_on = day("Due again on")
    expanded_u = figure("Expanded uncertainty", "U at k = 2, in the gauge's unit, as the certificate states it.")
    certificate_number = forms.CharField(label="Certificate number", max_length=80)
    laboratory = forms.CharField(label="Laboratory", max_length=120)
    corrects = forms.ModelChoiceField(
        Calibration.objects.none(), required=False, empty_label="nothing: this is a new calibration", label="Corrects"
    )
    correction_reason = forms.CharField(
        label="What was wrong", max_length=200, required=False, help_text="Only for a correction."
    )

    def __init__(self, *args: Any, gauge: Gauge, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choice: Any = self.fields["corrects"]
        choice.queryset = gauge.calibrations.filter(corrected_by__isnull=True).order_by("-done_on", "-id")
        choice.label_from_instance = lambda found: f"{found.certificate_number} of {found.done_on}"


class RetireForm(forms.Form):
    reason = forms.CharField(label="Why it is retired", max_length=200)
