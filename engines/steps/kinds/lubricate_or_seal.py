"""What is put on a place before it is closed: product, lot and shelf life; a sealant is closed while it is still open.

The open time of the data runs from the entry of the application. A closing after its end is refused: the sealant is cleaned
off and put on anew.
"""

from collections.abc import Iterator, Mapping
from datetime import date, datetime, timedelta
from fractions import Fraction
from typing import Any

from django import forms
from django.utils import timezone

from engines.catalogue.data import Operation, PackData
from engines.steps.asking import Question, check_answer, check_asked, typed
from engines.steps.details import unknown
from engines.steps.work import Content, Step, StepRefused, Work
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from shopfloor.people.models import Person

APPLY, CLOSE = "apply", "close"
CLOSED, CLEANED = "closed", "cleaned off, to be put on anew"
NEEDED, OTHERS = ("products", "places"), ("open_minutes",)
MOST_MINUTES = 60 * 24 * 7


class LubricateOrSeal(Step):
    name = "lubricate-or-seal"
    words = "lubricate or seal"
    caution = (
        "Sealants and thinners harm skin, eyes and lungs and may burn: gloves, air, no flame, the safety sheet of the product "
        "at hand. Too much sealant breaks off inside and blocks oil."
    )
    has_own_paper = True

    def check_details(self, operation: Operation, data: PackData) -> Iterator[str]:
        details = operation.details
        yield from unknown(self.name, details, (*NEEDED, *OTHERS))
        yield from (f"{name} is missing" for name in NEEDED if name not in details)
        for name in (name for name in NEEDED if name in details):
            given = details[name]
            if not isinstance(given, list) or not given or not all(isinstance(each, str) for each in given):
                yield f"{name} are a list of texts"
            elif len(set(given)) < len(given):
                yield f"{name} stand there twice"
        if "open_minutes" in details and _minutes(details["open_minutes"]) is None:
            yield f"open_minutes “{details['open_minutes']}” are no number above zero, up to a week"

    def form(self, work: Work, data: Mapping[str, Any] | None = None, files: Any = None) -> Question | None:
        asked = _asked(work)
        if asked is None:
            return None
        act, _, place = asked.partition(": ")
        return Question(data, asked=asked, **(_applied_fields(work, place) if act == APPLY else _closed_fields(work, place)))

    def keep(self, work: Work, given: Mapping[str, Any], *, by: Person, at: datetime) -> Content:
        asked = _asked(work)
        check_asked(asked, given)
        act, _, place = str(asked).partition(": ")
        return self._applied(work, place, given, at) if act == APPLY else self._closed(work, place, given, at)

    def missing(self, work: Work) -> list[str]:
        last = _last(work)
        waiting = {APPLY: "put on, but not closed yet.", CLEANED: "cleaned off, not put on anew."}
        left = [place for place in _places(work) if not _is_done(work, last.get(place))]
        return [f"{place}: {waiting[last[place]['act']] if place in last else 'nothing is put on yet.'}" for place in left]

    def handover(self, work: Work) -> list[str]:
        last = _last(work)
        running = [(place, _until(work, place)) for place, entry in last.items() if _is_open(work, entry)]
        cleaned = [f"{place}: cleaned off, not put on anew." for place, entry in last.items() if entry["act"] == CLEANED]
        return [*(_runs(place, until, work.at) for place, until in running), *cleaned]

    def lines(self, work: Work) -> Content:
        last = _last(work)
        open_now = [(place, _until(work, place)) for place, entry in last.items() if _is_open(work, entry)]
        return {
            "asked": work.operation.details,
            "entries": work.entries,
            "open_now": [(place, until, work.at is not None and work.at > until) for place, until in open_now],
        }

    def _applied(self, work: Work, place: str, given: Mapping[str, Any], at: datetime) -> Content:
        use_by, today = given["use_by"], timezone.localdate(at)
        if given["product"] not in work.operation.details["products"]:
            raise StepRefused(f"The data permit here: {', '.join(work.operation.details['products'])}. Take one of them.")
        if not isinstance(use_by, date) or use_by < today:
            raise StepRefused("Its shelf life is over. Put the container aside as scrap, and take a lot that is in date.")
        if not given["lot"].strip():
            raise StepRefused("Read the lot on the container: without it nobody finds this engine when the lot is called back.")
        said = {"product": given["product"], "lot": given["lot"].strip(), "use_by": use_by.isoformat()}
        return {"act": APPLY, "place": place, **said}

    def _closed(self, work: Work, place: str, given: Mapping[str, Any], at: datetime) -> Content:
        check_answer(given, (CLOSED, CLEANED))
        until = _until(work, place)
        if given["answer"] == CLOSED and at > until:
            over = f"The open time of the sealant at {place} ended at {timezone.localtime(until):%H:%M}."
            raise StepRefused(f"{over} Do not close it: clean it off, say so, and put it on anew.")
        return {"act": CLOSE if given["answer"] == CLOSED else CLEANED, "place": place}


def _applied_fields(work: Work, place: str) -> dict[str, forms.Field]:
    products = work.operation.details["products"]
    return {
        "product": forms.ChoiceField(label=f"Product at {place}", choices=[("", "choose"), *((each, each) for each in products)]),
        "lot": typed("Lot", "As it stands on the container."),
        "use_by": forms.DateField(
            label="Use by",
            widget=forms.DateInput(attrs={"type": "date"}),
            help_text="On the container.",
        ),
    }


def _closed_fields(work: Work, place: str) -> dict[str, forms.Field]:
    label = f"{place}: close it by {timezone.localtime(_until(work, place)):%H:%M}"
    answers = [(each, each) for each in (CLOSED, CLEANED)]
    return {"answer": forms.ChoiceField(label=label, choices=answers, widget=forms.RadioSelect)}


def _places(work: Work) -> list[str]:
    return list(work.operation.details["places"])


def _last(work: Work) -> dict[str, Content]:
    return {entry["place"]: entry for entry in work.entries}


def _is_open(work: Work, entry: Content) -> bool:
    return entry["act"] == APPLY and "open_minutes" in work.operation.details


def _is_done(work: Work, entry: Content | None) -> bool:
    return entry is not None and entry["act"] in (APPLY, CLOSE) and not _is_open(work, entry)


def _asked(work: Work) -> str | None:
    """A place that stands open is closed before the next is begun; what is late is asked about in the same way."""
    last = _last(work)
    for place in _places(work):
        if place in last and _is_open(work, last[place]):
            return f"{CLOSE}: {place}"
    left = [place for place in _places(work) if not _is_done(work, last.get(place))]
    return f"{APPLY}: {left[0]}" if left else None


def _until(work: Work, place: str) -> datetime:
    """The end of the open time: whole microseconds, never later than the data say."""
    put_on = max(moment for entry, moment in zip(work.entries, work.moments, strict=True) if entry["place"] == place)
    minutes = _minutes(work.operation.details["open_minutes"]) or Fraction()
    return put_on + timedelta(microseconds=int(minutes * 60_000_000))


def _runs(place: str, until: datetime, at: datetime | None) -> str:
    ends = f"{timezone.localtime(until):%d %b %H:%M}"
    if at is not None and at > until:
        return f"{place}: the open time of the sealant ended at {ends}. Do not close it: clean it off and put it on anew."
    return f"{place}: the sealant stands open. Close it by {ends}."


def _minutes(text: object) -> Fraction | None:
    try:
        minutes = Fraction(read_number(str(text)))
    except MeasureError:
        return None
    return minutes if 0 < minutes <= MOST_MINUTES else None
