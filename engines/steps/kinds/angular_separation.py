"""Openings round a circle lie apart as the data ask: ring gaps on a piston, a retaining ring against its pin.

Angles are typed as read on the part, in degrees; the least way between any two is judged in exact figures.
"""

import math
from collections.abc import Iterator, Mapping
from datetime import datetime
from fractions import Fraction
from typing import Any

from django import forms

from engines.catalogue.data import Operation, PackData
from engines.steps.details import is_texts, missing_texts, not_a_figure, unknown
from engines.steps.spots import SpotField, as_value, entered_at, open_spots
from engines.steps.work import PARTS, Content, Step, StepRefused, Work
from measurements.metrology.angles.openings import closest
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import plain_ratio, read_number
from shopfloor.people.models import Person

TURN, FAR_ENOUGH, TOO_CLOSE = 360, "far enough apart", "too close together"
CENTRE, RADIUS = 80, 48


class AnglesForm(forms.Form):
    def __init__(self, *args: Any, work: Work, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if work.operation.names:
            left = open_spots(work)
            self.fields["spot"] = SpotField(work, [*left, *(spot for spot in work.spots if spot not in left)])
        for index, opening in enumerate(work.operation.details["openings"]):
            widget = forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"})
            self.fields[f"opening_{index}"] = forms.CharField(
                label=f"{opening[:1].upper()}{opening[1:]}, degrees", max_length=10, widget=widget
            )


class AngularSeparation(Step):
    name = "angular-separation"
    words = "angular separation"
    names_what = PARTS
    caution = "Openings in line leak. Ring edges cut fingers, and a ring spread further than the data say is not used."
    has_own_paper = can_find = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        details = operation.details
        yield from unknown(self.name, details, ("openings", "least", "from"))
        yield from missing_texts(details, ("least", "from"))
        yield from not_a_figure(details, ("least",))
        if not is_texts(details.get("openings"), at_least=2):
            yield "openings name at least two, each once"
        elif _cannot_be(details):
            yield f"so many openings cannot lie {details['least']} degrees apart"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> AnglesForm:
        return AnglesForm(data, work=work)

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        details, spot = work.operation.details, given.get("spot")
        typed = {opening: given[f"opening_{index}"].strip() for index, opening in enumerate(details["openings"])}
        angles = {opening: _angle(opening, text) for opening, text in typed.items()}
        nearest = closest(angles)
        enough = nearest.degrees >= Fraction(read_number(details["least"]))
        return {
            "spot": as_value(spot) if spot else "",
            "position": work.words(spot) if spot else "",
            "angles": [f"{opening} {text}°" for opening, text in typed.items()],
            "closest": f"{nearest.first} and {nearest.second}: {plain_ratio(*nearest.degrees.as_integer_ratio())}°",
            "least": details["least"],
            "verdict": FAR_ENOUGH if enough else TOO_CLOSE,
        }

    def is_not_accepted(self, content: Content) -> bool:
        return content.get("verdict") == TOO_CLOSE

    def missing(self, work: Work) -> list[str]:
        if not work.operation.names:
            last = work.entries[-1:]
            return [*(["The angles were not read yet."] if not last else []), *self._wrong("", last)]
        done = entered_at(work)
        wrong = [sentence for spot in work.spots if spot in done for sentence in self._wrong(work.words(spot), [done[spot]])]
        return [*(f"{work.words(spot)} was not read yet." for spot in open_spots(work)), *wrong]

    def lines(self, work: Work) -> Content:
        last = {entry["spot"]: number for number, entry in enumerate(work.entries)}
        return {
            "entries": [
                {**entry, "marks": _marks(entry["angles"]), "counts": number in last.values()}
                for number, entry in enumerate(work.entries)
            ],
            "asked": work.operation.details,
        }

    def _wrong(self, where: str, entries: Any) -> list[str]:
        told = f"{where}: " if where else ""
        return [
            f"{told}{each['closest']} is {TOO_CLOSE}: turn one and read again." for each in entries if self.is_not_accepted(each)
        ]


def _cannot_be(details: Mapping[str, Any]) -> bool:
    """Whether the circle is too short for them; not known where the least separation is no figure."""
    sound = isinstance(details.get("least"), str) and not any(not_a_figure(details, ("least",)))
    return sound and read_number(details["least"]) * len(details["openings"]) > TURN


def _angle(opening: str, text: str) -> Fraction:
    try:
        angle = Fraction(read_number(text))
    except MeasureError as error:
        raise StepRefused(f"{opening}: {error}.") from None
    if not 0 <= angle < TURN:
        raise StepRefused(f"{opening}: {text} is no angle from 0 up to {TURN} degrees. Read it again.")
    return angle


def _marks(angles: list[str]) -> list[tuple[str, str, str]]:
    """Where each opening is drawn on a clock face, 0 at the top, clockwise; for the eye only."""
    found = []
    for said in angles:
        name, _, degrees = said.removesuffix("°").rpartition(" ")
        turned = math.radians(float(degrees))
        found.append((name, f"{CENTRE + RADIUS * math.sin(turned):.1f}", f"{CENTRE - RADIUS * math.cos(turned):.1f}"))
    return found
