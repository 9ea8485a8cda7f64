"""A sound call spoilt in one place at a time: every way in which a figure, a set, a pair of limits or a word can be nonsense."""

import dataclasses
import math
from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import partial
from typing import Any, NamedTuple

HUGE = 10**1_000_000
NEVER_FIGURES = {
    "NaN": math.nan,
    "infinite": math.inf,
    "decimal NaN": Decimal("NaN"),
    "a million digits": HUGE,
    "a million zeros": Decimal("1e1000000"),
}
PAIRS = (
    *(("low", "high"), ("least", "greatest"), ("minimum", "maximum"), ("usable_from", "usable_to"), ("range_from", "range_to")),
    *(("outer_least", "outer_greatest"), ("inner_least", "inner_greatest"), ("new_min", "new_max"), ("lower", "upper")),
)


class Marked(NamedTuple):
    """A sound value with what else would be nonsense in its place; `empty` says whether an empty set would be."""

    value: Any
    also: dict[str, Any] = {}
    empty: bool = True
    endless: bool = False


def above(value: Any) -> Marked:
    return Marked(value, {"zero": type(value)(0), "below zero": -value})


def not_below(value: Any) -> Marked:
    return Marked(value, {"below zero": type(value)(-1)})


def count(value: int) -> Marked:
    return Marked(value, {"below zero": -1, "half a one": 2.5})


def unit(value: str) -> Marked:
    return Marked(value, {"no such unit": "furlong", "a million letters": "m" * 1_000_000, "another dimension": "lbf·ft"})


def typed(value: str, **also: str) -> Marked:
    never = {"NaN": "NaN", "infinite": "inf", "exponent": "1e5", "a million digits": "9" * 1_000_000, "blank": "", "word": "mm"}
    return Marked(value, never | also)


def maybe_endless(value: float) -> Marked:
    return above(value)._replace(endless=True)


def may_be_empty(value: Any) -> Marked:
    return Marked(value, {}, empty=False)


class Made:
    """A record that is made when it is needed, so that nonsense may stand in its fields till then."""

    def __init__(self, of: Callable[..., Any], **parts: Any) -> None:
        self.of, self.parts = of, parts


def made(of: Any, *values: Any, **parts: Any) -> Made:
    return Made(of, **dict(zip((field.name for field in dataclasses.fields(of)), values, strict=False)), **parts)


def sound(value: Any) -> Any:
    """The value with every mark taken off."""
    if isinstance(value, Marked):
        return sound(value.value)
    return _built(value, {key: sound(part) for key, part in _parts(value).items()})


def spoilt_calls(arguments: dict[str, Any]) -> Iterator[tuple[str, Callable[[], dict[str, Any]]]]:
    """Each way to spoil a call, in words, and what makes its arguments. Making a record of nonsense may be refused already."""
    for spoiling in _in_parts(arguments, ()):
        yield (
            f"{': '.join(map(str, spoiling.path))}: {spoiling.words}",
            partial(_changed, arguments, spoiling.path, spoiling.change),
        )


class Spoiling(NamedTuple):
    path: tuple[Any, ...]
    words: str
    change: Callable[[Any], Any]


def _changed(value: Any, path: tuple[Any, ...], change: Callable[[Any], Any]) -> Any:
    if isinstance(value, Marked):
        return _changed(value.value, path, change)
    if not path:
        return change(value)
    parts = _parts(value)
    others = {key: sound(part) for key, part in parts.items()}
    return _built(value, others | {path[0]: _changed(parts[path[0]], path[1:], change)})


def _instead(path: tuple[Any, ...], words: str, bad: Any) -> Spoiling:
    return Spoiling(path, words, lambda _: bad)


def _spoilt(value: Any, path: tuple[Any, ...]) -> Iterator[Spoiling]:
    may_be_empty = endless = False
    if isinstance(value, Marked):
        yield from (_instead(path, words, bad) for words, bad in value.also.items())
        may_be_empty, endless, value = not value.empty, value.endless, value.value
    if _is_figure(value):
        endless = endless or value == math.inf
        yield from (_instead(path, words, bad) for words, bad in NEVER_FIGURES.items() if not (endless and bad is math.inf))
    if not may_be_empty and (isinstance(value, list | Mapping) or type(value) is tuple):
        yield _instead(path, "empty", type(value)())
    yield from _in_parts(value, path)


def _in_parts(value: Any, path: tuple[Any, ...]) -> Iterator[Spoiling]:
    parts = _parts(value)
    for key, part in parts.items():
        yield from _spoilt(part, (*path, key))
    for low, high in PAIRS:
        if None not in (parts.get(low), parts.get(high)) and sound(parts[low]) != sound(parts[high]):
            yield Spoiling(path, f"{low} and {high} reversed", partial(_swapped, low=low, high=high))
    for key in filter(_is_figure, value if isinstance(value, Mapping) else ()):
        yield from (Spoiling(path, f"key {words}", partial(_keyed, key=key, bad=bad)) for words, bad in NEVER_FIGURES.items())


def _swapped(value: Any, low: str, high: str) -> Any:
    parts = {key: sound(part) for key, part in _parts(value).items()}
    return _built(value, parts | {low: parts[high], high: parts[low]})


def _keyed(value: Any, key: Any, bad: Any) -> Any:
    return {bad if each == key else each: sound(part) for each, part in value.items()}


def _is_figure(value: Any) -> bool:
    return isinstance(value, int | float | Decimal | Fraction) and not isinstance(value, bool)


def _parts(value: Any) -> dict[Any, Any]:
    if isinstance(value, Made):
        return value.parts
    if dataclasses.is_dataclass(value):
        return {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return value._asdict()
    if isinstance(value, Mapping):
        return dict(value)
    return dict(enumerate(value)) if isinstance(value, list | tuple) else {}


def _built(value: Any, parts: dict[Any, Any]) -> Any:
    if isinstance(value, Made):
        return value.of(**parts)
    if dataclasses.is_dataclass(value):
        return dataclasses.replace(value, **parts)
    if isinstance(value, tuple) and hasattr(value, "_replace"):
        return value._replace(**parts)
    if isinstance(value, Mapping):
        return parts
    return type(value)(parts.values()) if isinstance(value, list | tuple) else value
