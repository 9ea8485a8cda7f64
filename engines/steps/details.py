"""Reading the details of an operation when its data are loaded: a sentence for each thing that is missing, not known or wrong."""

from collections.abc import Collection, Iterator, Mapping
from decimal import Decimal
from typing import Any

from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number
from measurements.metrology.units import dimension_of


def unknown(kind: str, details: Mapping[str, Any], known: Collection[str]) -> Iterator[str]:
    return (f"the kind {kind} knows no details “{name}”" for name in details if name not in known)


def wrong_names(kind: str, details: Mapping[str, Any], needed: Collection[str], others: Collection[str] = ()) -> Iterator[str]:
    yield from unknown(kind, details, (*needed, *others))
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


def missing_texts(details: Mapping[str, Any], names: Collection[str]) -> Iterator[str]:
    return (f"{name} is one text" for name in names if not isinstance(details.get(name), str) or not details[name].strip())


def is_texts(value: object, at_least: int = 1) -> bool:
    """A list of texts, each once."""
    return isinstance(value, list) and len(value) >= at_least and all(map(_is_text, value)) and len(set(value)) == len(value)


def is_records(value: object, keys: Collection[str]) -> bool:
    """A list of mappings that have just these keys, each with a text."""
    return isinstance(value, list) and bool(value) and all(_is_record(each, keys) for each in value)


def not_a_figure(details: Mapping[str, Any], names: Collection[str]) -> Iterator[str]:
    """For those that are there; figures above zero."""
    for name in names:
        if isinstance(details.get(name), str) and not _positive(details[name]):
            yield f"{name} “{details[name]}” is no figure above zero"


def _positive(text: str) -> bool:
    try:
        return read_number(text) > 0
    except MeasureError:
        return False


def _is_text(value: object) -> bool:
    return isinstance(value, str) and bool(value.strip())


def _is_record(value: object, keys: Collection[str]) -> bool:
    return isinstance(value, dict) and set(value) == set(keys) and all(map(_is_text, value.values()))
