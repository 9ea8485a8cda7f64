"""Whether a channel can be read at a step of this schedule."""

from engines.testbench.channels import OF_THE_RUN, of_each_cylinder
from engines.testbench.schedule import Schedule, Spot


class SpotRefused(Exception):
    """The sentence says what to name instead."""


def check_spot(schedule: Schedule, step: str, spot: Spot) -> None:
    """Raises SpotRefused."""
    name = f"{spot.channel[:1].upper()}{spot.channel[1:60]}"
    if spot.channel not in schedule.channels:
        raise SpotRefused(f"“{spot.channel[:60]}” is no channel of this stand. Use one of: {', '.join(schedule.channels)}.")
    if (spot.channel in OF_THE_RUN) != (not step):
        where = "for the run as a whole, not at a step" if spot.channel in OF_THE_RUN else "at the step that is going"
        raise SpotRefused(f"{name} is noted {where}.")
    if of_each_cylinder(spot.channel):
        if not 1 <= spot.cylinder <= schedule.data.cylinders:
            raise SpotRefused(f"{name}: name the cylinder, from 1 to {schedule.data.cylinders}.")
    elif spot.cylinder:
        raise SpotRefused(f"{name} has no cylinder: leave that blank.")
