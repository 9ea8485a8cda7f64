"""A reading drawn against its limits. What is drawn decides nothing: the verdict is given, and only the drawing uses floats."""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Protocol

from measurements.readings.scales import WIDTH, Scale, scale_for

LETTER = 7.2


class Limits(Protocol):
    """What a strip needs of a row of a limit table; limits and values are in `unit`."""

    @property
    def new_min(self) -> Decimal | None: ...
    @property
    def new_max(self) -> Decimal | None: ...
    @property
    def service_min(self) -> Decimal | None: ...
    @property
    def service_max(self) -> Decimal | None: ...
    @property
    def unit(self) -> str: ...
    @property
    def is_fit(self) -> bool: ...


@dataclass(frozen=True)
class Mark:
    """A limit: where its line stands, and its number with the middle of where that is printed."""

    x: float
    text: str
    text_x: float


@dataclass(frozen=True)
class Span:
    x: float
    width: float


@dataclass(frozen=True)
class Strip:
    """A drawing in a box of WIDTH units: marks in order, left is less. None and empty are not drawn."""

    verdict: str
    sentence: str
    new: tuple[Mark, ...]
    service: tuple[Mark, ...]
    new_band: Span | None
    service_band: Span | None
    bar: Span | None
    whisker: Span | None
    zero: float | None
    beyond_left: bool
    beyond_right: bool


def strip_of(row: Limits, minimum: str, maximum: str, verdict: str, expanded_u: Fraction | None = None) -> Strip:
    """The strip of a value from `minimum` to `maximum`, plain figures in the row's unit; blank where nothing was read.

    `expanded_u` is U in the row's unit. A value far from its limits stands at the edge, marked as lying beyond it.
    """
    low, high = _figure(minimum), _figure(maximum)
    u = expanded_u or Fraction(0)
    scale = scale_for(_bounds(row), low, high, u)
    bar = None if low is None or high is None else _between(scale, low, high)
    return Strip(
        verdict=verdict,
        sentence=_sentence(row, _read(minimum, maximum, row), expanded_u),
        new=_marks(scale, row, row.new_min, row.new_max),
        service=_marks(scale, row, row.service_min, row.service_max),
        new_band=_band(scale, row.new_min, row.new_max),
        service_band=_service_band(scale, row),
        bar=bar,
        whisker=None if low is None or high is None or not u else _between(scale, low - u, high + u),
        zero=scale.x(Fraction(0)) if row.is_fit and scale.holds(Fraction(0)) else None,
        beyond_left=low is not None and scale.left_of(low),
        beyond_right=high is not None and scale.right_of(high),
    )


def figure_text(figure: str, row: Limits) -> str:
    """A figure as the trade writes it: a fit carries T for tight or L for loose in place of its sign."""
    return signed_text(figure, row.is_fit)


def signed_text(figure: str, is_fit: bool) -> str:
    if not is_fit or not figure:
        return figure
    return f"{figure.removeprefix('-')} {'T' if figure.startswith('-') else 'L'}"


def _figure(text: str) -> Fraction | None:
    return Fraction(text) if text else None


def _bounds(row: Limits) -> list[Fraction | None]:
    """Least and greatest new, least and greatest service limit."""
    return [None if limit is None else Fraction(limit) for limit in (row.new_min, row.new_max, row.service_min, row.service_max)]


def _between(scale: Scale, low: Fraction, high: Fraction) -> Span:
    return Span(scale.x(low), round(scale.x(high) - scale.x(low), 2))


def _band(scale: Scale, least: Decimal | None, greatest: Decimal | None) -> Span | None:
    """From limit to limit; on a side without one the band runs off the edge."""
    if least is None and greatest is None:
        return None
    left = 0.0 if least is None else scale.x(Fraction(least))
    right = float(WIDTH) if greatest is None else scale.x(Fraction(greatest))
    return Span(left, round(right - left, 2))


def _service_band(scale: Scale, row: Limits) -> Span | None:
    if row.service_min is None and row.service_max is None:
        return None
    least = row.new_min if row.service_min is None else row.service_min
    return _band(scale, least, row.new_max if row.service_max is None else row.service_max)


def _marks(scale: Scale, row: Limits, least: Decimal | None, greatest: Decimal | None) -> tuple[Mark, ...]:
    """The marks of a least and a greatest limit, their numbers pushed apart where they would touch."""
    given = [limit for limit in (least, greatest) if limit is not None]
    texts = [figure_text(f"{limit:f}", row) for limit in given]
    places = [scale.x(Fraction(limit)) for limit in given]
    middles = [_kept_inside(x, text) for x, text in zip(places, texts, strict=True)]
    if len(given) == 2:
        middles = _apart(middles, texts)
    return tuple(Mark(x, text, middle) for x, text, middle in zip(places, texts, middles, strict=True))


def _apart(middles: list[float], texts: list[str]) -> list[float]:
    needed = (len(texts[0]) + len(texts[1]) + 2) * LETTER / 2
    short = max(0.0, needed - (middles[1] - middles[0]))
    left = _kept_inside(middles[0] - short / 2, texts[0])
    right = _kept_inside(max(middles[1], left + needed), texts[1])
    return [round(min(left, right - needed), 2), right]


def _kept_inside(x: float, text: str) -> float:
    half = min(len(text) * LETTER / 2, WIDTH / 2)
    return round(min(max(x, half), WIDTH - half), 2)


def _read(minimum: str, maximum: str, row: Limits) -> str:
    low, high = figure_text(minimum, row), figure_text(maximum, row)
    return low if low == high else f"{low} to {high}"


def _sentence(row: Limits, read: str, expanded_u: Fraction | None) -> str:
    """All that the drawing shows, for a reader who hears it."""
    parts = [f"Read {read} {row.unit}" if read else "Nothing read"]
    if expanded_u:
        parts.append(f"expanded uncertainty {float(expanded_u):.6g} {row.unit}")
    for name, least, greatest in (("new", row.new_min, row.new_max), ("service", row.service_min, row.service_max)):
        ends = [("least", least), ("greatest", greatest)]
        parts += [f"{name} {end} {figure_text(f'{limit:f}', row)}" for end, limit in ends if limit is not None]
    return "; ".join(parts if any(bound is not None for bound in _bounds(row)) else [*parts, "no limit"])
