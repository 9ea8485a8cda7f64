"""What else happens when a part is no longer the one that was looked at. Rooms that need to know add a callable when ready."""

from collections.abc import Callable
from datetime import datetime

from engines.visits.models import Visit
from shopfloor.people.models import Person

AfterWork = Callable[[Visit, Person, datetime], object]

# Each is called when a rework was carried out or another part took the place of one, with who did it and when, inside the same
# transaction: what it raises undoes the act.
after_work: list[AfterWork] = []


def tell_after_work(visit: Visit, by: Person, at: datetime) -> None:
    for told in after_work:
        told(visit, by, at)
