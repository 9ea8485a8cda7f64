"""What is left: how far a reading lies from where it must not go, and which share of the wear allowance that is."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from measurements.metrology.checked import Checked
from measurements.metrology.errors import NoAnswer
from measurements.metrology.figures import Exact, exact_all
from measurements.metrology.limits import LimitRow, check_order


@dataclass(frozen=True)
class Side(Checked):
    """One side of a row: the limit in force, what is left to it (negative beyond), and the wear allowance of that side.

    In the row's unit, exact. The allowance runs from the new limit to the service limit; None where there are not both.
    """

    limit: Fraction
    left: Fraction
    allowance: Fraction | None

    @property
    def share(self) -> Fraction | None:
        """What is left over the allowance: 1 on the new limit, 0 on the service limit; None where nothing may wear."""
        return self.left / self.allowance if self.allowance else None


@dataclass(frozen=True)
class Margin(Checked):
    """Both sides of a row; None where no limit holds on that side."""

    below: Side | None
    above: Side | None

    @property
    def nearest(self) -> Side:
        """The side with less left. Raises NoAnswer where neither has a limit."""
        sides = [side for side in (self.below, self.above) if side is not None]
        if not sides:
            raise NoAnswer("No limit holds here: look at the fit, or at the row's page.")
        return min(sides, key=lambda side: side.left)


def margin(row: LimitRow, values: Sequence[Exact]) -> Margin:
    """What the extremes of the values read leave to the row's limits.

    The service limit counts where there is one, else the new limit; where wear beyond the new limit is judged on the fit, the
    part by itself has no limit on that side, and so no margin.

    Units: the row's unit. Shape: values of one feature, at least one. Raises: NothingGiven when empty, ReversedLimits, BadFigure.
    Source: TM 9-2520-234-35, paragraph 235 (wear limit, and limits on the fit); TM 9-2815-225-34P, appendix F (a limit on either
    side).
    """
    check_order(row)
    read = exact_all(values, "the readings")
    new_min, new_max, service_min, service_max = (None if limit is None else Fraction(limit) for limit in row.limits)
    low = new_min if service_min is None and row.worn != "fit" else service_min
    high = new_max if service_max is None and row.worn != "fit" else service_max
    least, greatest = min(read), max(read)
    return Margin(
        None if low is None else Side(low, least - low, _allowance(new_min, service_min)),
        None if high is None else Side(high, high - greatest, _allowance(new_max, service_max)),
    )


def _allowance(new: Fraction | None, service: Fraction | None) -> Fraction | None:
    return None if new is None or service is None else abs(service - new)
