"""A run on the stand, told step by step through the services of the stand. Every figure is invented."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from decimal import Decimal

from engines.catalogue.data import RunLimit, RunStep
from engines.testbench.channels import INPUTS
from engines.testbench.findings import findings_text, sha256_of
from engines.testbench.models import Run
from engines.testbench.queries import run_now, runs, schedule_of
from engines.testbench.services import Typed, answer, begin_run, begin_step, end_run, end_step, read
from engines.visits.models import Visit
from shopfloor.people.models import Person

DAY: Mapping[str, str] = {"air temperature": "61", "air pressure": "29.90", "humidity": "48"}
MAGNETOS: Mapping[str, str] = {
    "speed on both magnetos": "1800",
    "speed on left magneto": "1735",
    "speed on right magneto": "1720",
}
OIL: Mapping[str, str] = {"oil put in": "9", "oil left": "8.9"}


class StandRun:
    """One run of a visit by one mechanic, from `begun` on. `odd` gives channels that do not read as they should."""

    def __init__(self, visit: Visit, by: Person, begun: datetime, odd: Mapping[str, str] | None = None) -> None:
        self.by, self.now, self.odd = by, begun, odd or {}
        self.schedule = schedule_of(visit)
        self.run = begin_run(visit=visit, by=by, at=begun)

    def hold(self, *codes: str) -> None:
        """The steps of these codes; all of them where none is named."""
        for step in self.schedule.steps:
            if not codes or step.code in codes:
                self._hold(step)

    def end(self) -> Run:
        read(run=self.run, step="", typed=[Typed(channel, value) for channel, value in OIL.items()], by=self.by, at=self.now)
        seen = sha256_of(findings_text(run_now(runs().get(pk=self.run.pk), self.now).standing))
        return end_run(run=self.run, seen_sha256=seen, by=self.by, at=self.now)

    def _hold(self, step: RunStep) -> None:
        begin_step(run=self.run, step=step.code, by=self.by, at=self.now)
        self.now += timedelta(minutes=int(step.minutes) + 1)
        typed = [
            Typed(spot.channel, self._value(step, spot.channel), spot.cylinder) for spot in self.schedule.wanted_at(step.code)
        ]
        if typed:
            read(run=self.run, step=step.code, typed=typed, by=self.by, at=self.now)
        for check in self.schedule.checks_at(step.code):
            answer(run=self.run, code=check.code, yes=True, by=self.by, at=self.now)
        end_step(run=self.run, step=step.code, by=self.by, at=self.now)

    def _value(self, step: RunStep, channel: str) -> str:
        known = {**DAY, **MAGNETOS, **self.odd}
        if channel in known:
            return known[channel]
        limits = self.schedule.limits_at(step.code)
        return _well_within(next(each for each in limits if channel in (each.channel, *INPUTS.get(each.channel, ()))))


def _well_within(limit: RunLimit) -> str:
    """Near the middle of the limits, or on the good side of the only one."""
    low, high = (Decimal(text) if text else None for text in (limit.low or limit.abort_low, limit.high or limit.abort_high))
    if low is not None and high is not None:
        wanted = (low + high) / 2
    elif high is not None:
        wanted = high * Decimal("0.9")
    else:
        wanted = (low or Decimal(0)) * Decimal("1.3")
    return f"{wanted:.1f}"
