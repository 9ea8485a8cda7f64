"""Curves of a run, laid out for a small drawing: one for each channel, a line for each cylinder, limits as scribed lines.

Drawing decides nothing, so binary numbers will do here.
"""

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction

from engines.testbench.channels import OF_THE_RUN
from engines.testbench.quantities import convert
from engines.testbench.standing import Read, Standing

WIDTH, HEIGHT = 640, 200
LEFT, RIGHT, TOP, BOTTOM = 56, 596, 30, 168
LETTER = 12  # the height that a label needs
DASHES = ("", "8 3", "2 3", "10 3 2 3", "5 5", "12 4")


@dataclass(frozen=True)
class Curve:
    """One series; `end` is where its name stands."""

    name: str
    points: str
    dots: tuple[tuple[float, float], ...]
    dashes: str
    end_x: float
    end_y: float


@dataclass(frozen=True)
class Mark:
    at: float
    text: str


@dataclass(frozen=True)
class Drawing:
    channel: str
    unit: str
    curves: tuple[Curve, ...]
    values: tuple[Mark, ...]
    moments: tuple[Mark, ...]
    steps: tuple[Mark, ...]
    limits: tuple[Mark, ...]
    sentence: str


def drawings(standing: Standing) -> list[Drawing]:
    """For every channel that was read at least twice at one spot."""
    by_channel: dict[str, list[Read]] = defaultdict(list)
    for read in standing.facts.reads:
        if read.spot.channel not in OF_THE_RUN:
            by_channel[read.spot.channel].append(read)
    return [_drawing(standing, channel, reads) for channel, reads in by_channel.items() if _worth_drawing(reads)]


def _worth_drawing(reads: list[Read]) -> bool:
    return len({read.at for read in reads}) > 1


def _drawing(standing: Standing, channel: str, reads: list[Read]) -> Drawing:
    unit = standing.schedule.channels[channel]
    values = {read: float(convert(read.value, read.unit, unit)) for read in reads}
    limits = _limits_of(standing, channel, unit)
    low, high = _span([*values.values(), *(value for value, _ in limits)])
    begun, ended = standing.facts.spans[0].begun, max(read.at for read in reads)

    def x(at: datetime) -> float:
        return round(LEFT + (RIGHT - LEFT) * ((at - begun) / (ended - begun) if ended > begun else 0.0), 1)

    def y(value: float) -> float:
        return round(BOTTOM - (BOTTOM - TOP) * (value - low) / (high - low), 1)

    curves = []
    for index, cylinder in enumerate(sorted({read.spot.cylinder for read in reads})):
        mine = [(x(read.at), y(value)) for read, value in values.items() if read.spot.cylinder == cylinder]
        points = " ".join(f"{across},{down}" for across, down in mine)
        dots = tuple(mine) if len(mine) <= 40 else ()
        name = str(cylinder) if cylinder else ""
        curves.append(Curve(name, points, dots, DASHES[index % len(DASHES)], mine[-1][0] + 6, mine[-1][1] + 4))
    minutes = (ended - begun).total_seconds() / 60
    return Drawing(
        channel=channel,
        unit=unit,
        curves=_apart(curves),
        values=tuple(Mark(y(value), f"{value:g}") for value in (low, (low + high) / 2, high)),
        moments=(Mark(LEFT, "0"), Mark(RIGHT, f"{minutes:.0f} min")),
        steps=tuple(Mark(x(span.begun), _title(standing, span.step)) for span in standing.facts.spans if span.begun <= ended),
        limits=tuple(Mark(y(value), words) for value, words in limits),
        sentence=f"{channel}, {unit}: from {min(values.values()):g} to {max(values.values()):g} over {minutes:.0f} minutes.",
    )


def _apart(curves: list[Curve]) -> tuple[Curve, ...]:
    """Names at the ends of the lines, none over another: from the lowest up, each at least a letter above the one before."""
    last = float(BOTTOM + 2 * LETTER)
    placed = {}
    for curve in sorted(curves, key=lambda each: -each.end_y):
        last = min(curve.end_y, last - LETTER)
        placed[curve.name] = replace(curve, end_y=last)
    return tuple(placed[curve.name] for curve in curves)


def _limits_of(standing: Standing, channel: str, unit: str) -> list[tuple[float, str]]:
    """Every figure of the channel's limits, once, in its unit."""
    found: dict[float, str] = {}
    for limit in standing.schedule.data.run_limits:
        if limit.channel == channel:
            for text, words in ((limit.low, "least"), (limit.high, "most"), (limit.abort_low, "end"), (limit.abort_high, "end")):
                if text:
                    found.setdefault(float(convert(Fraction(text), limit.unit, unit)), f"{words} {text}")
    return sorted(found.items())


def _span(values: list[float]) -> tuple[float, float]:
    """A little more than what is drawn, so that nothing lies on the frame."""
    low, high = min(values), max(values)
    room = (high - low) * 0.08 or max(abs(high) * 0.05, 1.0)
    return float(f"{low - room:.3g}"), float(f"{high + room:.3g}")


def _title(standing: Standing, step: str) -> str:
    return standing.schedule.step_by_code[step].title
