"""A log of the stand as a file: comma-separated UTF-8 text, one reading to a line, under the heading HEADING.

`time` is a moment with its offset from UTC (`2026-03-02T10:15:00Z`); the step is the one that was going then. `channel` is a
name from the list on the page, `cylinder` its number or blank, `value` a plain decimal, `unit` blank for that of the data.
"""

import csv
import io
from bisect import bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction

from engines.testbench.errors import LogRefused
from engines.testbench.quantities import convert, read_quantity
from engines.testbench.schedule import Schedule, Spot
from engines.testbench.spots import SpotRefused, check_spot
from engines.testbench.standing import Span
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import read_number

HEADING = ("time", "channel", "cylinder", "value", "unit")
MOST_BYTES, MOST_LINES = 2_000_000, 20_000
MOST_MISTAKES = 200
DRAWN = 120  # how many points of a channel are drawn, whatever the length of the log
EVERY = 1000


@dataclass(frozen=True)
class LogLine:
    line: int
    step: str
    spot: Spot
    value: str
    unit: str
    at: datetime
    exact: Fraction  # in the unit of the channel
    shown: bool = False


def lines_in(data: bytes) -> tuple[str, int]:
    """The text and how many readings it holds. Raises LogRefused where it is too big, no text, or has another heading."""
    if len(data) > MOST_BYTES:
        raise LogRefused([f"The file has {len(data)} bytes, at most {MOST_BYTES} are taken: send it in pieces."])
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise LogRefused(["The file is no UTF-8 text: save it as CSV in UTF-8."]) from None
    heading, _, rest = text.partition("\n")
    if tuple(each.strip() for each in heading.split(",")) != HEADING:
        raise LogRefused([f"Line 1: the heading must be {','.join(HEADING)}."])
    count = sum(1 for line in rest.splitlines() if line.strip())
    if count > MOST_LINES:
        raise LogRefused([f"The file has {count} lines, at most {MOST_LINES} are taken: send it in pieces."])
    if not count:
        raise LogRefused(["The file holds no reading below its heading."])
    return text, count


def read_lines(
    text: str, schedule: Schedule, spans: Sequence[Span], until: datetime, progress: Callable[[int], None] = lambda done: None
) -> list[LogLine]:
    """Every reading, those that decide or are drawn marked as shown. Raises LogRefused with every mistake and its line."""
    reader = _Reader(schedule, spans, until)
    found: list[LogLine] = []
    mistakes: list[str] = []
    for number, cells in _rows(text, mistakes):
        try:
            found.append(reader.line(number, cells))
        except (MeasureError, SpotRefused) as error:
            mistakes.append(f"Line {number}: {str(error).rstrip('.')}.")
        if len(mistakes) >= MOST_MISTAKES:
            break
        if number % EVERY == 0:
            progress(number)
    if mistakes:
        raise LogRefused(mistakes)
    return mark_shown(found)


def mark_shown(lines: list[LogLine]) -> list[LogLine]:
    """At each step the last, least and greatest of a channel; and of the whole log enough to draw it."""
    keep: set[int] = set()
    at_step: dict[tuple[str, Spot], list[LogLine]] = defaultdict(list)
    of_spot: dict[Spot, list[LogLine]] = defaultdict(list)
    for line in sorted(lines, key=lambda each: each.at):
        at_step[line.step, line.spot].append(line)
        of_spot[line.spot].append(line)
    for group in at_step.values():
        least, greatest = min(group, key=lambda each: each.exact), max(group, key=lambda each: each.exact)
        keep |= {group[-1].line, least.line, greatest.line}
    for group in of_spot.values():
        keep |= {each.line for each in group[:: max(1, -(-len(group) // DRAWN))]}
    return [replace(line, shown=line.line in keep) for line in lines]


class _Reader:
    def __init__(self, schedule: Schedule, spans: Sequence[Span], until: datetime) -> None:
        self.schedule, self.until = schedule, until
        self.spans = sorted(spans, key=lambda span: span.begun)
        self.begun = [span.begun for span in self.spans]
        self.seen: dict[tuple[Spot, datetime], int] = {}

    def line(self, number: int, cells: list[str]) -> LogLine:
        if len(cells) != len(HEADING):
            raise MeasureError(f"{len(cells)} fields where {len(HEADING)} are wanted ({','.join(HEADING)})")
        moment, channel, cylinder, value, unit = (cell.strip() for cell in cells)
        at = self._moment(moment)
        step = self._step(at, moment)
        spot = Spot(channel, _cylinder(cylinder))
        check_spot(self.schedule, step, spot)
        own = self.schedule.channels[channel]
        figure, unit = read_quantity(f"{value} {unit}", own)
        if (before := self.seen.setdefault((spot, at), number)) != number:
            raise MeasureError(f"{spot} at {moment} stands in line {before} already")
        return LogLine(number, step, spot, figure, unit, at, convert(Fraction(read_number(figure)), unit, own))

    def _moment(self, text: str) -> datetime:
        try:
            at = datetime.fromisoformat(text)
        except ValueError:
            raise MeasureError(f"“{text[:40]}” is no moment: write it such as 2026-03-02T10:15:00Z") from None
        if at.tzinfo is None:
            raise MeasureError(f"“{text[:40]}” has no offset from UTC: write it such as 2026-03-02T10:15:00Z")
        if at > self.until:
            raise MeasureError(f"{text[:40]} had not come when the log was sent: check the clock of the stand")
        return at

    def _step(self, at: datetime, text: str) -> str:
        place = bisect_right(self.begun, at) - 1
        span = self.spans[place] if place >= 0 else None
        if span is None or (span.ended is not None and at > span.ended):
            raise MeasureError(f"at {text[:40]} no step of the run was going")
        return span.step


def _rows(text: str, mistakes: list[str]) -> Iterator[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=""))
    next(reader)
    try:
        for cells in reader:
            if cells:
                yield reader.line_num, cells
    except csv.Error as error:
        mistakes.append(f"Line {reader.line_num}: {error}.")


def _cylinder(text: str) -> int:
    if not text:
        return 0
    if not (text.isascii() and text.isdigit()) or len(text) > 3 or int(text) == 0:
        raise MeasureError(f"“{text[:20]}” is no cylinder: write its number, or leave it blank")
    return int(text)
