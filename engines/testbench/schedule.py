"""The schedule of the engine data: its steps, and what the data ask to be read, answered and kept to at each."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from engines.catalogue.data import PackData, RunCheck, RunLimit, RunStep
from engines.testbench.channels import INPUTS, OF_THE_RUN, READ, of_each_cylinder
from measurements.metrology.numbers import read_number


@dataclass(frozen=True, order=True)
class Spot:
    """A channel, and the cylinder where each has its own; 0 where not."""

    channel: str
    cylinder: int = 0

    def __str__(self) -> str:
        return f"{self.channel}, cylinder {self.cylinder}" if self.cylinder else self.channel


class Schedule:
    def __init__(self, data: PackData) -> None:
        self.data = data
        self.steps = data.run_steps

    @cached_property
    def step_by_code(self) -> dict[str, RunStep]:
        return {step.code: step for step in self.steps}

    @cached_property
    def check_by_code(self) -> dict[str, RunCheck]:
        return {check.code: check for check in self.data.run_checks}

    def limits_at(self, step: str) -> list[RunLimit]:
        """Those of the step itself and those of every step; blank asks for those of the run as a whole.

        Limits of every step hold until the engine has turned for the last time: a stopped engine has no oil pressure.
        """
        of_run = [each for each in self.data.run_limits if set(INPUTS.get(each.channel, ())) & set(OF_THE_RUN)]
        if not step:
            return of_run
        named = ("", step) if step in self._until_it_stops else (step,)
        return [each for each in self.data.run_limits if each.step in named and each not in of_run]

    @cached_property
    def _until_it_stops(self) -> frozenset[str]:
        turning = [index for index, step in enumerate(self.steps) if step.rpm]
        return frozenset(step.code for step in self.steps[: turning[-1] + 1]) if turning else frozenset(self.step_by_code)

    def checks_at(self, step: str) -> list[RunCheck]:
        return [each for each in self.data.run_checks if each.step == step]

    def wanted_at(self, step: str) -> list[Spot]:
        """What must be read: whatever a limit of the step needs."""
        channels = [channel for each in self.limits_at(step) for channel in INPUTS.get(each.channel, (each.channel,))]
        return [spot for channel in dict.fromkeys(channels) for spot in self.spots_of(channel)]

    def spots_of(self, channel: str) -> list[Spot]:
        if not of_each_cylinder(channel):
            return [Spot(channel)]
        return [Spot(channel, cylinder) for cylinder in range(1, self.data.cylinders + 1)]

    @cached_property
    def channels(self) -> dict[str, str]:
        """Every channel that may be read, with the unit meant where none is typed: the data's own, where they name one."""
        named = {each.channel: each.unit for each in self.data.run_limits if each.channel not in INPUTS}
        return {**READ, **named}


def least_minutes(step: RunStep) -> Fraction:
    return Fraction(read_number(step.minutes))
