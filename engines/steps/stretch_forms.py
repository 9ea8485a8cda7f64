"""What is asked at a stretch group, one question for each screen: the gauge, a length, or the bolt that takes another's place."""

from collections.abc import Mapping
from typing import Any

from django import forms

from engines.steps.instruments import instrument_field
from engines.steps.joint_forms import BeginForm, FastenerForm, figure
from engines.steps.joints import Standing


class GaugeForm(BeginForm):
    def __init__(self, *args: Any, details: Mapping[str, Any], now: Standing, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.begin(now, {"gauge": instrument_field(f"Gauge that reads {details['unit']}", details["unit"])})


class LengthForm(FastenerForm):
    """`before` is the length of another bolt just before it."""

    def __init__(self, *args: Any, details: Mapping[str, Any], now: Standing, before: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        number = now.following[0] if now.following else ""
        self.at_fastener(details, now, {"length": figure(f"Length {number}, {details['unit']}")})
        self.ask_again("length", before)


class RenewForm(forms.Form):
    identity = forms.CharField(max_length=60)
    evidence = forms.CharField(label="Its evidence of eligibility", max_length=80, help_text="The number of its certificate.")

    def __init__(self, *args: Any, number: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["identity"].label = f"Serial or mark of the new bolt {number}"
