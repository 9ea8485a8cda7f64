"""Reading the details of an operation when its data are loaded: what is missing, not known, or no figure, a sentence each."""

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number


def unknown(kind: str, details: Mapping[str, Any], known: Collection[str]) -> Iterator[str]:
    return (f"the kind {kind} knows no details “{name}”" for name in details if name not in known)


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
