"""What the data ask of a stretch group: limits, retry rule, permanent set, and whether the details suffice."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Any

from engines.catalogue.data import Operation, PackData
from engines.steps.details import figure_in, wrong_figures, wrong_minutes, wrong_names, wrong_texts, wrong_unit
from engines.steps.picture import is_each_once, numbers_of, wrong_layout
from engines.steps.work import Spot, Work
from measurements.metrology.fasteners.stretch import After, Finding, PermanentSet, RetryRule, Step, decide, permanent_set
from measurements.metrology.figures import exact_positive
from measurements.metrology.numbers import places_of, plain, read_number

FREE, TIGHT = "free", "tightened"
NEEDED, OTHERS = ("fasteners", "order", "unit", "retry"), ("low", "high", "set", "minutes")
RETRY, STEP, SET = ("under", "over"), ("do", "then"), ("free", "most")
AFTER = {"again": After.AGAIN, "anew": After.ANEW, "end": After.END}


@dataclass(frozen=True)
class Ask:
    """Limits of the stretch in `unit`; `free_new` is the length of a new bolt, where the data limit what it may stay longer."""

    unit: str
    low: Decimal | None
    high: Decimal | None
    rule: RetryRule
    free_new: Decimal | None = None
    most_set: Decimal | None = None

    @classmethod
    def of(cls, details: Mapping[str, Any]) -> "Ask":
        steps = {side: tuple(Step(each["do"], AFTER[each["then"]]) for each in details["retry"].get(side, ())) for side in RETRY}
        figure, limit = figure_in, details.get("set", {})
        low, high = figure(details, "low"), figure(details, "high")
        return cls(details["unit"], low, high, RetryRule(**steps), figure(limit, "free"), figure(limit, "most"))

    def length(self, typed: str) -> Fraction:
        return exact_positive(read_number(typed), "the length")

    def permanent_set(self, typed: str) -> PermanentSet | None:
        if self.free_new is None or self.most_set is None:
            return None
        return permanent_set(self.free_new, read_number(typed), self.most_set)

    def decide(self, before: Sequence[Decimal], stretch: Fraction) -> tuple[Finding, Step | None]:
        """Where the stretch lies after those of the same bolt that were not good, and the step of the rule; None is no step."""
        finding = decide([*before, stretch], self.low, self.high, self.rule).finding
        if finding is Finding.WITHIN:
            return finding, None
        same = [each for each in before if decide([each], self.low, self.high, RetryRule()).finding is finding]
        steps = self.rule.under if finding is Finding.UNDER else self.rule.over
        return finding, steps[len(same)] if len(same) < len(steps) else None


def as_read(amount: Fraction, *figures: str | Decimal | None) -> str:
    """What lies between figures, with as many decimals as the finer of them was typed with; exact."""
    places = max(places_of(read_number(str(each))) for each in figures if each is not None)
    return plain(int(amount * 10**places), places)


def spot_of(work: Work, number: str) -> Spot:
    """Where the parts list has this bolt."""
    place = next(each["at"] for each in work.operation.details["fasteners"] if each["number"] == number)
    return work.operation.names[0], place


def wrong_details(kind: str, operation: Operation, data: PackData) -> Iterator[str]:
    details = operation.details
    wrong = [
        *wrong_names(kind, details, NEEDED, OTHERS),
        *wrong_texts(details, ("unit", "low", "high", "minutes")),
    ]
    if not wrong:
        wrong += [*wrong_layout(details, ("at",)), *wrong_unit(details["unit"], "length", "")]
        wrong += [*_wrong_limits(details), *_wrong_retry(details["retry"]), *_wrong_set(details.get("set"))]
        wrong += wrong_minutes(details)
    if not wrong:
        wrong += _wrong_bolts(operation, data)
    yield from wrong


def _wrong_limits(details: Mapping[str, Any]) -> Iterator[str]:
    wrong = list(wrong_figures(details, ("low", "high")))
    low, high = (figure_in(details, name) if not wrong else None for name in ("low", "high"))
    if not wrong and low is None and high is None:
        wrong.append("the stretch has no limit: give low, high or both")
    if low is not None and high is not None and low > high:
        wrong.append(f"low {low} is above high {high}")
    yield from wrong


def _wrong_retry(given: Any) -> Iterator[str]:
    if not isinstance(given, dict) or not all(isinstance(each, list) for each in given.values()):
        yield "retry says under and over, each as a list of what is done"
        return
    yield from wrong_names("retry", given, (), RETRY)
    for step in (step for steps in given.values() for step in steps):
        if not isinstance(step, dict) or set(step) != set(STEP) or step["then"] not in AFTER or not isinstance(step["do"], str):
            yield f"each step of retry has do and then, which is {', '.join(AFTER)}"


def _wrong_set(given: Any) -> Iterator[str]:
    if given is None:
        return
    if not isinstance(given, dict):
        yield "set has free and most"
        return
    yield from (*wrong_names("set", given, SET), *wrong_figures(given, ("free",)))
    yield from wrong_figures(given, ("most",), nought=True)


def _wrong_bolts(operation: Operation, data: PackData) -> Iterator[str]:
    details, numbers = operation.details, numbers_of(operation.details)
    line = data.line_by_code.get(operation.names[0]) if len(operation.names) == 1 else None
    if not is_each_once(details["order"], numbers):
        yield f"order names every fastener once: {', '.join(numbers)}"
    if line is None:
        yield "it names one line of the parts list, that of its bolts"
        return
    places = [each["at"] for each in details["fasteners"]]
    yield from (f"“{line.line}” has no place “{place}”" for place in places if place not in line.places)
    if len(set(places)) < len(places):
        yield "two of its fasteners lie at the same place"
