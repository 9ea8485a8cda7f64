"""The fasteners of a joint as a numbered picture: where each lies on it, and a choice that is made by tapping it."""

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms

from engines.steps.details import wrong_figures, wrong_names
from measurements.metrology.numbers import read_number

SIDE, EDGE, DOT = 360, 40, 26
MOST = 60
NEXT, DONE, TO_DO = "next", "done", "to do"


@dataclass(frozen=True)
class Dot:
    """A fastener on the picture; `left` and `top` are the corner of the square that is tapped."""

    number: str
    x: int
    y: int
    state: str = TO_DO

    @property
    def left(self) -> int:
        return self.x - DOT

    @property
    def top(self) -> int:
        return self.y - DOT


def wrong_layout(details: Mapping[str, Any], also: tuple[str, ...] = ()) -> Iterator[str]:
    """What is wrong with `fasteners` (number, x to the right, y down, and what the kind needs `also`) or `circle`."""
    if ("fasteners" in details) == ("circle" in details):
        yield "the picture is given by fasteners or by circle: give one of them"
    elif "circle" in details:
        circle = details["circle"]
        if not isinstance(circle, str) or not circle.isdecimal() or not 1 <= int(circle) <= MOST:
            yield f"circle is how many fasteners lie on it, from 1 to {MOST}"
    else:
        yield from _wrong_fasteners(details["fasteners"], also)


def _wrong_fasteners(given: Any, also: tuple[str, ...]) -> Iterator[str]:
    if not isinstance(given, list) or not 1 <= len(given) <= MOST or not all(isinstance(each, dict) for each in given):
        yield f"fasteners are a list of 1 to {MOST}, each with {', '.join(('number', 'x', 'y', *also))}"
        return
    numbers = [str(each.get("number")) for each in given]
    for number, each in zip(numbers, given, strict=True):
        wrong = [*wrong_names("fastener", each, ("number", "x", "y", *also)), *wrong_figures(each, ("x", "y"), nought=True)]
        yield from (f"fastener {number}: {sentence}" for sentence in wrong)
    yield from (f"fastener {number} is there twice" for number in dict.fromkeys(numbers) if numbers.count(number) > 1)


def numbers_of(details: Mapping[str, Any]) -> tuple[str, ...]:
    if "circle" in details:
        return tuple(str(number) for number in range(1, int(details["circle"]) + 1))
    return tuple(each["number"] for each in details["fasteners"])


def is_each_once(order: Any, numbers: Sequence[str]) -> bool:
    return isinstance(order, list) and len(order) == len(numbers) and set(map(str, order)) == set(numbers)


class Dots(list[Dot]):
    """All of one picture, which is as high as they reach."""

    @property
    def height(self) -> int:
        return max((dot.y for dot in self), default=0) + EDGE


def dots_of(details: Mapping[str, Any], following: str = "", done: Collection[str] = ()) -> Dots:
    """SIDE wide: a circle numbered clockwise from the top, or the fasteners where the data lay them."""
    places = _on_circle(int(details["circle"])) if "circle" in details else _laid_out(details["fasteners"])
    states = dict.fromkeys(done, DONE) | ({following: NEXT} if following else {})
    return Dots(Dot(number, x, y, states.get(number, TO_DO)) for number, (x, y) in zip(numbers_of(details), places, strict=True))


def _on_circle(count: int) -> list[tuple[int, int]]:
    middle, radius = SIDE / 2, SIDE / 2 - EDGE
    turns = [2 * math.pi * number / count for number in range(count)]
    return [(round(middle + radius * math.sin(turn)), round(middle - radius * math.cos(turn))) for turn in turns]


def _laid_out(fasteners: list[Mapping[str, str]]) -> list[tuple[int, int]]:
    lies = [(float(read_number(each["x"])), float(read_number(each["y"]))) for each in fasteners]
    left, top = (min(lie[axis] for lie in lies) for axis in (0, 1))
    widest = max(max(lie[axis] for lie in lies) - low for axis, low in ((0, left), (1, top))) or 1.0
    scale = (SIDE - 2 * EDGE) / widest
    return [(round(EDGE + (x - left) * scale), round(EDGE + (y - top) * scale)) for x, y in lies]


class Tapped(forms.RadioSelect):
    """Radio buttons that lie on the picture, none of them chosen before somebody taps it."""

    template_name = "steps/tapped.html"

    def __init__(self, dots: Sequence[Dot], fixed: Sequence[Dot]) -> None:
        super().__init__(choices=[(dot.number, dot.number) for dot in dots])
        self.dots, self.fixed = dots, fixed

    def get_context(self, name: str, value: Any, attrs: Any) -> dict[str, Any]:
        return {
            **super().get_context(name, value, attrs),
            "dots": self.dots,
            "fixed": self.fixed,
            "height": Dots([*self.dots, *self.fixed]).height,
            "name": name,
            "chosen": str(value or ""),
        }


def tapped_field(dots: Sequence[Dot], label: str, fixed: Sequence[Dot] = ()) -> forms.ChoiceField:
    """Those that are `fixed` are drawn where they lie, and are not chosen any more."""
    return forms.ChoiceField(label=label, choices=[(dot.number, dot.number) for dot in dots], widget=Tapped(dots, fixed))
