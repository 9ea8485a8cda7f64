"""The order of the steps: what must be held before another begins. Pure."""

from engines.catalogue.data import RunStep
from engines.testbench.standing import Standing


def waits_for(standing: Standing, wanted: RunStep) -> list[str]:
    """Why a step cannot be begun: another goes on, an earlier one was not held, or nothing is known of the oil yet."""
    if standing.going:
        return [f"{standing.going.title} is going on: end that step first."]
    steps = standing.schedule.steps
    earlier = steps[: steps.index(wanted)]
    if wanted.rpm and earlier and (left := standing.not_good_at(earlier[0])):
        return [f"Before the engine turns, {earlier[0].title} must be complete: {' '.join(left)}"]
    short = [each for each in earlier if not standing.is_held(each)]
    return [f"{each.title} comes before it and must be held for {each.minutes} minutes first." for each in short]
