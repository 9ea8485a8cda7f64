"""What was read and where: a value as typed with its unit, and the plan of planes and directions."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple, Protocol

from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import mantissa_and_places
from measurements.readings.errors import ReadingRefused


class Point(NamedTuple):
    """One value as typed, at a plane along the part and in a direction around it; both blank where the plan names none."""

    plane: str
    direction: str
    value: str

    @property
    def name(self) -> str:
        return place_name(self.plane, self.direction)


class Planned(Protocol):
    """What of a row of a limit table says where it is read."""

    @property
    def planes(self) -> list[str]: ...
    @property
    def directions(self) -> list[str]: ...


def check_plan(row: Planned, points: Sequence[Point]) -> None:
    """Every planned place once and no other, with a plain decimal at each. Raises ReadingRefused, naming the places."""
    planned = [*plan(row)]
    read = Counter((point.plane, point.direction) for point in points)
    _refuse([place for place in planned if not read[place]], "was not read: read it, then enter all together")
    _refuse([place for place in read if place not in planned], "is not in the plan of this row: read where the data say")
    _refuse([place for place, times in read.items() if times > 1], "was entered more than once: keep one value")
    for point in points:
        try:
            mantissa_and_places(point.value)
        except MeasureError as error:
            raise ReadingRefused(f"{_opening(point.name)}: {error}.") from None


def plan(row: Planned) -> Iterator[tuple[str, str]]:
    """Plane and direction of each place, plane by plane; a row that names neither is read once."""
    yield from product(row.planes or [""], row.directions or [""])


def place_name(plane: str, direction: str) -> str:
    parts = [f"plane {plane}"] * bool(plane) + [f"direction {direction}"] * bool(direction)
    return ", ".join(parts) or "the value"


def _refuse(places: list[tuple[str, str]], why: str) -> None:
    if places:
        names = "; ".join(place_name(*place) for place in places)
        raise ReadingRefused(f"{_opening(names)} {why}.")


def _opening(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}"
