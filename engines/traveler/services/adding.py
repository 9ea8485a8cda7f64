"""A change during a visit: work that the pinned data do not ask for, with its reason, checked as the data are."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.timezone import localdate

from engines.catalogue.data import Operation as Planned
from engines.catalogue.data import PackData
from engines.packs.reading import PackMistakes, read_added
from engines.packs.writing import typed_entry
from engines.traveler.authority import check_authorised
from engines.traveler.errors import NotInTheData, OperationMistaken
from engines.traveler.models import Operation
from engines.traveler.needs import APPROVING
from engines.traveler.services.planning import plan_due
from engines.visits import services as visits
from engines.visits.models import AddedOperation, Visit
from engines.visits.queries import additions_of, locked_visit
from engines.visits.route import data_for
from shopfloor.people.models import Person

CODE = "added-{}"


@transaction.atomic
def add_operation(
    *, visit: Visit, given: Mapping[str, Any], from_data: bool, reason: str, by: Person, at: datetime
) -> AddedOperation:
    """Ask for an operation beyond the route; `given` are its fields by the keys of route.yaml, its code is made here.

    It holds its area up until another person has decided. Raises OperationMistaken with all that is wrong, NotInTheData, and
    what the visits refuse.
    """
    visit = locked_visit(visit.pk)
    data = data_for(visit)
    planned = _read({**given, "code": _free_code(visit, data), "scopes": (), "reasons": ()}, data)
    cited = {(source.document, source.revision) for source in data.sources}
    if from_data and (planned.source.document, planned.source.revision) not in cited:
        raise NotInTheData(planned.source.document, planned.source.revision)
    return visits.ask_for_operation(visit=visit, operation=planned, from_data=from_data, reason=reason, by=by, at=at)


@transaction.atomic
def approve_added(*, added: AddedOperation, by: Person, at: datetime) -> list[Operation]:
    """It is part of the visit from now on. Raises NotAuthorised, and what the visits refuse."""
    check_authorised(by, APPROVING, added.visit.pack.model.code, localdate(at))
    visit = visits.approve_addition(added=added, by=by, at=at)
    return plan_due(visit=visit, by=by, at=at)


def refuse_added(*, added: AddedOperation, words: str, by: Person, at: datetime) -> AddedOperation:
    return visits.refuse_addition(added=added, words=words, by=by, at=at)


def _read(given: Mapping[str, Any], data: PackData) -> Planned:
    try:
        return read_added(typed_entry(given), data)
    except PackMistakes as found:
        raise OperationMistaken([f"{each.wrong}; {each.right}." for each in found.mistakes]) from None


def _free_code(visit: Visit, data: PackData) -> str:
    taken = {*data.operation_by_code, *(added.code for added in additions_of(visit))}
    return next(code for number in range(1, len(taken) + 2) if (code := CODE.format(number)) not in taken)
