"""Checking what the details of an operation ask, a sentence for each thing that is wrong."""

from collections.abc import Collection, Iterator, Mapping
from decimal import Decimal
from typing import Any

from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from measurements.metrology.units import dimension_of


def wrong_names(kind: str, details: Mapping[str, Any], needed: Collection[str], others: Collection[str] = ()) -> Iterator[str]:
    yield from (f"the kind {kind} knows no details “{each}”" for each in details if each not in (*needed, *others))
    yield from (f"{name} is missing" for name in needed if name not in details)


def wrong_texts(details: Mapping[str, Any], names: Collection[str]) -> Iterator[str]:
    yield from (f"{name} is one text" for name in names if name in details and not isinstance(details[name], str))


def wrong_figures(given: Mapping[str, Any], names: Collection[str], *, nought: bool = False) -> Iterator[str]:
    """Figures above nought, or with `nought` from it on, of those that are there."""
    for name in (each for each in names if each in given):
        try:
            figure = read_number(str(given[name]))
        except MeasureError:
            yield f"{name} “{given[name]}” is no number"
            continue
        if figure < 0 or not (figure or nought):
            yield f"{name} {given[name]} is not above zero"


def figure_in(given: Mapping[str, Any], name: str) -> Decimal | None:
    """The figure of details that were checked; None where it is not given."""
    return read_number(given[name]) if name in given else None


def wrong_words(given: Mapping[str, Any], name: str, known: Collection[str]) -> Iterator[str]:
    """One of a few words that the kind knows."""
    if name in given and given[name] not in known:
        yield f"{name} is {' or '.join(known)}"


def wrong_unit(unit: str, dimension: str, where: str) -> Iterator[str]:
    try:
        found = dimension_of(unit)
    except MeasureError as error:
        yield f"{where}{error}"
        return
    if found != dimension:
        yield f"{where}{unit} measures {found}, not {dimension}"


def wrong_minutes(details: Mapping[str, Any]) -> Iterator[str]:
    if "minutes" in details and not (str(details["minutes"]).isdecimal() and 0 < int(details["minutes"]) < 10000):
        yield "minutes are a whole number, from 1 on"
