"""What the gallery shows: one drawing of each case, on invented figures."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from django import forms

from measurements.readings.strips import Strip, figure_text, strip_of

WORDS = ("within new limits", "serviceable", "outside limits", "too close to call", "not judged")


@dataclass(frozen=True, kw_only=True)
class SampleRow:
    """Limits of no real engine."""

    new_min: Decimal | None = None
    new_max: Decimal | None = None
    service_min: Decimal | None = None
    service_max: Decimal | None = None
    unit: str = "in"
    is_fit: bool = False


@dataclass(frozen=True)
class Sample:
    case: str
    read: str
    verdict: str
    strip: Strip


def _sample(case: str, row: SampleRow, low: str, high: str, verdict: str, u: str = "0") -> Sample:
    read = " to ".join(dict.fromkeys(figure_text(figure, row) for figure in (low, high)))
    return Sample(case, f"{read} {row.unit}" if read else "", verdict, strip_of(row, low, high, verdict, Fraction(u)))


BORE = SampleRow(
    new_min=Decimal("4.9990"), new_max=Decimal("5.0010"), service_min=Decimal("4.9980"), service_max=Decimal("5.0030")
)
WITHOUT_SERVICE = SampleRow(new_min=Decimal("1.2480"), new_max=Decimal("1.2486"))
TAPER = SampleRow(new_max=Decimal("0.0010"), service_max=Decimal("0.0030"))
FIT = SampleRow(new_min=Decimal("-0.0008"), new_max=Decimal("0.0004"), service_max=Decimal("0.0012"), is_fit=True)
SAMPLE_STRIPS = (
    _sample("Both sides, inside both new limits", BORE, "4.9997", "5.0004", "within new limits"),
    _sample("Worn past new, inside service", BORE, "5.0012", "5.0021", "serviceable"),
    _sample("Beyond the service limit", BORE, "5.0034", "5.0039", "outside limits"),
    _sample("Uncertainty reaches over the limit", BORE, "5.0025", "5.0028", "too close to call", "0.0006"),
    _sample("Gauge cannot decide this", WITHOUT_SERVICE, "1.2483", "1.2483", "not judged", "0.0005"),
    _sample("No service limit given", WITHOUT_SERVICE, "1.2481", "1.2484", "within new limits"),
    _sample("One side only", TAPER, "0.0004", "0.0004", "within new limits"),
    _sample("Far beyond", BORE, "5.0500", "5.0500", "outside limits"),
    _sample("Far below", BORE, "4.9000", "4.9000", "outside limits"),
    _sample("A fit, from tightest to loosest", FIT, "-0.0006", "0.0002", "within new limits"),
    _sample("A fit whose mate was not read", FIT, "", "", "not judged"),
    _sample("No limit at all", SampleRow(), "2.1235", "2.1235", "not judged"),
)


class SampleForm(forms.Form):
    """Each kind of control, named by what a bench would ask."""

    bench = forms.CharField(label="Bench", help_text="The name painted on it.")
    reading = forms.CharField(label="Reading", help_text="With its unit, such as 2.1235 in or 53.94 mm.", required=False)
    worn = forms.ChoiceField(label="What wear means", choices=(("new", "replace at the new limit"), ("fit", "look at the fit")))
    sheet = forms.FileField(label="Sheet of readings", help_text="Comma-separated text.", required=False)
    planes = forms.MultipleChoiceField(
        label="Planes read",
        choices=(("head", "head"), ("middle", "middle"), ("skirt", "skirt")),
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )
    remark = forms.CharField(label="Remark", widget=forms.Textarea(attrs={"rows": 3}), required=False)
