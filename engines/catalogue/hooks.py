"""Who is asked whether a person may approve data. A room above that keeps such a roster adds a callable when it is made ready."""

from collections.abc import Callable
from datetime import date

from shopfloor.people.models import Person

WhyNot = Callable[[Person, str, date], str]

# Each is called with the person, the code of the engine model and the day; what it answers is the reason, blank for none.
why_not_approving: list[WhyNot] = []


def why_not(person: Person, model: str, day: date) -> str:
    """The first reason that this person cannot approve data of this model on this day; blank where they can."""
    return next((reason for asked in why_not_approving if (reason := asked(person, model, day))), "")
