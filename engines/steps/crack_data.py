"""What the data say of a crack test: method, technique, level, bath, checks with instruments, criteria, what is left behind."""

from collections.abc import Iterator, Mapping
from datetime import timedelta
from fractions import Fraction
from typing import Any

from engines.catalogue.data import Operation
from engines.steps.details import (
    figure_in,
    is_records,
    is_texts,
    missing_texts,
    wrong_figures,
    wrong_names,
    wrong_unit,
    wrong_words,
)
from measurements.metrology.errors import MeasureError
from measurements.metrology.units import dimension_of

MAGNETIC, PENETRANT = "magnetic particle", "penetrant"
NEEDED = ("method", "technique", "level", "bath", "checks", "criteria", "cleaned")
OTHERS = ("residual", "again_after_rework")
BOUNDS = ("least", "greatest")

Details = Mapping[str, Any]


def is_within(bounds: Details, figure: Fraction) -> bool:
    """Exact, both ends included; one of them may be open."""
    low, high = (figure_in(bounds, name) for name in BOUNDS)
    return (low is None or low <= figure) and (high is None or figure <= high)


def asked_for(bounds: Details) -> str:
    said = [f"{words} {bounds[name]}" for name, words in zip(BOUNDS, ("at least", "at most"), strict=True) if name in bounds]
    return f"{' and '.join(said)} {bounds['unit']}" if said else ""


def good_for(check: Details) -> timedelta:
    """How long a check holds: whole microseconds, never longer than the data say."""
    return timedelta(microseconds=int(Fraction(figure_in(check, "hours") or 0) * 3_600_000_000))


def check_named(details: Details, name: str) -> Details:
    return next(each for each in details["checks"] if each["check"] == name)


def at_each_part(details: Details) -> list[str]:
    """The checks that hold for one part only: those that the data give no hours."""
    return [each["check"] for each in details["checks"] if "hours" not in each]


def criterion_of(details: Details, sort: str) -> Details | None:
    return next((each for each in details["criteria"] if each["sort"] == sort), None)


def is_again_after_rework(details: Details) -> bool:
    return bool(details.get("again_after_rework") == "yes")


def wrong_crack_test(kind: str, operation: Operation) -> Iterator[str]:
    """What is wrong with the details of such an operation, a sentence each."""
    details = operation.details
    yield from wrong_names(kind, details, NEEDED, OTHERS)
    yield from wrong_words(details, "method", (MAGNETIC, PENETRANT))
    yield from wrong_words(details, "again_after_rework", ("yes", "no"))
    if "level" in details and not (str(details["level"]).isdecimal() and 0 < int(details["level"]) < 10):
        yield "level is a whole number, from 1 to 9"
    if "cleaned" in details:
        yield from missing_texts(details, ("cleaned",))
    if "technique" in details and not is_records([details["technique"]], ("sheet", "revision")):
        yield "technique says sheet and revision"
    yield from _wrong_bath(details)
    yield from _wrong_checks(details)
    yield from _wrong_criteria(details)
    yield from _wrong_residual(details)


def _wrong_bath(details: Details) -> Iterator[str]:
    bath = details.get("bath")
    if bath is None:
        return
    if not _is_texts(bath) or not {"what", "hours"} <= set(bath) <= {"what", "hours", "unit", *BOUNDS}:
        yield "bath says what it is, the hours that its check holds and, where its concentration is read, unit, least, greatest"
        return
    yield from wrong_figures(bath, ("hours",))
    if ("unit" in bath) != bool(set(bath) & set(BOUNDS)):
        yield "the concentration of the bath needs its unit, and least, greatest or both"
    yield from _wrong_bounds("the bath", bath)


def _wrong_checks(details: Details) -> Iterator[str]:
    checks = details.get("checks")
    if checks is None:
        return
    if not isinstance(checks, list) or not checks or not all(map(_is_check, checks)):
        yield "checks are a list, each with check, unit, least or greatest and, where it holds for more than one part, hours"
        return
    if not is_texts([each["check"] for each in checks]):
        yield "each of the checks has a name of its own"
    for each in checks:
        yield from _unknown_unit(each["unit"], f"{each['check']}: ")
        yield from wrong_figures(each, ("hours",))
        yield from _wrong_bounds(each["check"], each)


def _unknown_unit(unit: str, where: str) -> Iterator[str]:
    try:
        dimension_of(unit)
    except MeasureError as error:
        yield f"{where}{error}"


def _wrong_criteria(details: Details) -> Iterator[str]:
    criteria = details.get("criteria")
    if criteria is None:
        return
    if not is_records(criteria, ("sort", "greatest", "unit")) or not is_texts([each["sort"] for each in criteria]):
        yield "criteria are a list, each sort once, with greatest and unit"
        return
    for each in criteria:
        yield from wrong_figures(each, ("greatest",), nought=True)
        yield from wrong_unit(each["unit"], "length", f"{each['sort']}: ")


def _wrong_residual(details: Details) -> Iterator[str]:
    """What was magnetised is demagnetised and read; what was not is not."""
    residual, is_magnetic = details.get("residual"), details.get("method") == MAGNETIC
    if is_magnetic != (residual is not None):
        yield f"residual belongs to the method {MAGNETIC}, and to that one only"
    elif residual is not None and not is_records([residual], ("greatest", "unit")):
        yield "residual says greatest and unit"
    elif residual is not None:
        yield from wrong_figures(residual, ("greatest",))
        yield from wrong_unit(residual["unit"], "flux density", "residual: ")


def _wrong_bounds(name: str, given: Details) -> Iterator[str]:
    wrong = list(wrong_figures(given, BOUNDS, nought=True))
    yield from wrong
    low, high = (None, None) if wrong else (figure_in(given, each) for each in BOUNDS)
    if low is not None and high is not None and low > high:
        yield f"the least of {name} is above its greatest"


def _is_check(given: object) -> bool:
    known = {"check", "unit", "hours", *BOUNDS}
    return _is_texts(given) and {"check", "unit"} <= set(given) <= known and bool(set(given) & set(BOUNDS))  # type: ignore[call-overload]


def _is_texts(given: object) -> bool:
    return isinstance(given, dict) and all(isinstance(each, str) and each.strip() for each in given.values())
