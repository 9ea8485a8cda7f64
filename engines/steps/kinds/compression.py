"""Differential compression: what each cylinder holds, against the master orifice read on the same day.

Judged in exact figures by what the data say: a least reading, or the most that it may lie below the master orifice. The loss
shown beside it is supply less reading, in percent of the supply (the arithmetic of FAA AC 43.13-1B, 8-14).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

from django import forms
from django.utils import timezone

from engines.catalogue.data import Operation, PackData
from engines.steps.details import unknown
from engines.steps.instruments import instrument, instrument_field
from engines.steps.noticing import raise_at
from engines.steps.spots import SpotField, as_value, entered_at, open_spots
from engines.steps.work import PARTS, Content, Spot, Step, StepRefused, Work
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import plain_ratio, read_number
from shopfloor.people.models import Person

HOT, COLD = CONDITIONS = ("hot", "cold")
NEEDED = ("supply", "unit", "orifice", "condition", "leaks")
BOUNDS = ("least", "below_master")
MASTER, NOWHERE = "master orifice", "nowhere"
ENOUGH, TOO_LOW = "enough", "too low"


class CompressionForm(forms.Form):
    spot = forms.ChoiceField()
    reading = forms.CharField(max_length=20, widget=forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"}))
    condition = forms.ChoiceField(
        label="The engine is", choices=[("", "choose"), *((each, each) for each in CONDITIONS)], help_text="As it is now."
    )
    tester = forms.ChoiceField()
    heard = forms.ChoiceField(label="Where air is heard", required=False, help_text="Needed where the reading is too low.")

    def __init__(self, *args: Any, work: Work, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        details = work.operation.details
        self.fields["tester"] = instrument_field("Tester", details["unit"])
        self.fields["spot"] = MeasuredField(work, open_spots(work))
        heard: Any = self.fields["heard"]
        heard.choices = [("", "choose"), (NOWHERE, NOWHERE), *((where, where) for where in details["leaks"])]
        self.fields["reading"].label = f"Held, {details['unit']}"
        self.fields["reading"].help_text = f"With the supply at {details['supply']} {details['unit']}."


class MeasuredField(SpotField):
    """The master orifice, which is cleaned to None, or a cylinder; those not measured yet come first."""

    def __init__(self, work: Work, spots: list[Spot]) -> None:
        orifice = (MASTER, f"{MASTER} of the tester, {work.operation.details['orifice']}")
        every = [*spots, *(spot for spot in work.spots if spot not in spots)]
        super().__init__(work, every, label="What is measured", before=[orifice])

    def clean(self, value: object) -> Any:
        return None if value == MASTER else super().clean(value)


@dataclass(frozen=True)
class Ask:
    """What the data ask, exact."""

    supply: Decimal
    least: Decimal | None
    below_master: Decimal | None

    def least_of(self, master: Decimal) -> Decimal:
        if self.least is not None:
            return self.least
        return master - self.below_master if self.below_master is not None else master

    def loss(self, reading: Decimal) -> str:
        ratio = Fraction(self.supply - reading) * 100 / Fraction(self.supply)
        return plain_ratio(ratio.numerator, ratio.denominator)


class Compression(Step):
    name = "compression"
    words = "differential compression"
    caution = (
        "Air in a cylinder turns the propeller with force. One person holds it before the air is let in; both stay out of its "
        "arc, and the ignition is off and grounded."
    )
    names_what = PARTS
    needs_names = can_find = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        details = operation.details
        yield from unknown(self.name, details, (*NEEDED, *BOUNDS))
        texts = [name for name in (*NEEDED[:-1], *BOUNDS) if name in details]
        wrong = [f"{name} is one text" for name in texts if not isinstance(details[name], str)]
        wrong += [f"{name} is missing" for name in NEEDED if name not in details]
        if len([name for name in BOUNDS if name in details]) != 1:
            wrong.append("it is judged by least or by below_master: give one of them")
        yield from wrong
        if not wrong:
            yield from _unfit(details)

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> CompressionForm:
        return CompressionForm(data, work=work)

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        ask, details, spot = _ask(work.operation), work.operation.details, given["spot"]
        if given["condition"] != details["condition"]:
            raise StepRefused(f"The data ask for it {details['condition']}. Bring the engine there, then measure.")
        reading = _figure(given["reading"])
        if not 0 <= reading <= ask.supply:
            raise StepRefused(
                f"What is held lies between 0 and the supply of {ask.supply:f} {details['unit']}. Look at both gauges."
            )
        tester = instrument(given["tester"], at)
        said = {
            "tester": tester.number,
            "certificate": tester.certificate,
            "condition": given["condition"],
            "day": timezone.localdate(at).isoformat(),
        }
        measured = {"reading": f"{reading:f}", "unit": details["unit"]}
        if spot is None:
            return {"spot": "", "measured": MASTER, **measured, **said}
        master = self._master(work, said)
        least = ask.least_of(master)
        verdict = ENOUGH if reading >= least else TOO_LOW
        heard = given["heard"]
        if verdict == TOO_LOW:
            if not heard:
                raise StepRefused(f"Less than {least:f} {details['unit']}: listen where the air goes, and choose the place.")
            raise_at(work, spot, self._told(work, spot, measured["reading"], f"{least:f}", heard), by=by, at=at)
        return {
            "spot": as_value(spot),
            "measured": work.words(spot),
            **measured,
            "least": f"{least:f}",
            "master": f"{master:f}",
            "loss": f"{ask.loss(reading)} %",
            "verdict": verdict,
            "heard": heard,
            **said,
        }

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("verdict") == TOO_LOW

    def missing(self, work: Work) -> list[str]:
        return [f"{work.words(spot)}: not measured yet." for spot in open_spots(work)]

    def lines(self, work: Work) -> Content:
        done = entered_at(work)
        masters = [entry for entry in work.entries if not entry["spot"]]
        return {
            "asked": work.operation.details,
            "masters": masters,
            "cylinders": [done[spot] for spot in work.spots if spot in done],
        }

    def _master(self, work: Work, said: Mapping[str, str]) -> Decimal:
        """The last reading of the orifice with the same tester on the same day."""
        same = [
            entry for entry in work.entries if not entry["spot"] and all(entry[name] == said[name] for name in ("tester", "day"))
        ]
        if not same:
            raise StepRefused(f"Read the master orifice of {said['tester']} first: every cylinder is held against it, today.")
        return read_number(same[-1]["reading"])

    def _told(self, work: Work, spot: Spot, reading: str, least: str, heard: str) -> str:
        unit, meaning = work.operation.details["unit"], work.operation.details["leaks"].get(heard, "")
        where = f"air heard at {heard}" + (f": {meaning}" if meaning else "")
        return f"{work.words(spot)}: holds {reading} {unit}, at least {least} {unit} are asked; {where}."


def _ask(operation: Operation) -> Ask:
    figures = {name: operation.details.get(name) for name in ("supply", *BOUNDS)}
    return Ask(**{name: None if text is None else read_number(text) for name, text in figures.items()})  # type: ignore[arg-type]


def _figure(text: str) -> Decimal:
    try:
        return read_number(text.strip())
    except MeasureError as error:
        raise StepRefused(f"{str(error)[0].upper()}{str(error)[1:]}.") from None


def _unfit(details: Mapping[str, Any]) -> Iterator[str]:
    if details["condition"] not in CONDITIONS:
        yield f"condition is one of {', '.join(CONDITIONS)}"
    if not isinstance(details["leaks"], dict) or not all(isinstance(text, str) for text in details["leaks"].values()):
        yield "leaks say for each place where air is heard what it means"
    figures: dict[str, Decimal] = {}
    for name in ("supply", *BOUNDS):
        try:
            figures |= {name: read_number(details[name])} if name in details else {}
        except MeasureError:
            yield f"{name} “{details[name]}” is no number"
    if all(figure > 0 for figure in figures.values()) and len(figures) == 2:
        supply, bound = figures.values()
        if bound >= supply:
            yield "what a cylinder must hold is less than the supply"
    elif len(figures) == 2:
        yield "supply and what is asked are above zero"
