"""Where a figure stands on a drawn strip."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

WIDTH = 380
EDGE = 20
CLOSED_REACH, OPEN_REACH = 2, 20
MARGIN = Fraction(1, 8)


@dataclass(frozen=True)
class Scale:
    """From `low` at the left edge to `high` at the right, low < high."""

    low: Fraction
    high: Fraction

    def x(self, figure: Fraction) -> float:
        """How far from the left the figure stands; what lies off the strip stands at its edge."""
        share = (figure - self.low) / (self.high - self.low)
        return round(EDGE + float(min(max(share, Fraction(0)), Fraction(1))) * (WIDTH - 2 * EDGE), 2)

    def left_of(self, figure: Fraction) -> bool:
        return figure < self.low

    def right_of(self, figure: Fraction) -> bool:
        return figure > self.high

    def holds(self, figure: Fraction) -> bool:
        return self.low <= figure <= self.high


def scale_for(bounds: Sequence[Fraction | None], low: Fraction | None, high: Fraction | None, u: Fraction) -> Scale:
    """All limits, and as much of the value and its uncertainty as lies near enough to leave the limits legible.

    `bounds`: least and greatest new, least and greatest service limit. A side with no limit may reach much further.
    """
    limits = [bound for bound in bounds if bound is not None]
    ends = [] if low is None or high is None else [low - u, high + u]
    if not limits:
        return _padded(min(ends, default=Fraction(0)), max(ends, default=Fraction(0)))
    least, greatest = min(limits), max(limits)
    size = (greatest - least) or max((abs(end - least) for end in ends), default=Fraction(0))
    closed_left = bounds[0] is not None or bounds[2] is not None
    closed_right = bounds[1] is not None or bounds[3] is not None
    furthest_left = least - size * (CLOSED_REACH if closed_left else OPEN_REACH)
    furthest_right = greatest + size * (CLOSED_REACH if closed_right else OPEN_REACH)
    return _padded(
        max(furthest_left, min([least, *ends])),
        min(furthest_right, max([greatest, *ends])),
    )


def _padded(low: Fraction, high: Fraction) -> Scale:
    margin = (high - low) * MARGIN or abs(low) * MARGIN or Fraction(1)
    return Scale(low - margin, high + margin)
