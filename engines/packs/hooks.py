"""What else happens when data comes into force. Rooms that need to know add a callable when they are made ready."""

from collections.abc import Callable
from datetime import datetime

from engines.catalogue.models import Pack
from shopfloor.people.models import Person

AfterApproval = Callable[[Pack | None, Pack, Person, datetime], None]

# Each is called with the data that gave way (None for the first of a model), the data now in force, who approved it and
# when, inside the transaction of the approval: what it raises undoes the approval.
after_approval: list[AfterApproval] = []
