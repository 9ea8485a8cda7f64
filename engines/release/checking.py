"""Whether a release may be signed as it stands, and the text that its signer must have seen. Asked by page and act alike."""

from datetime import date

from django.utils import timezone

from engines.release.acts import acts_missing
from engines.release.authority import check_may_release
from engines.release.blockers import Blocker, Situation
from engines.release.errors import FieldRefused, ReleaseHeld
from engines.release.models import Release, Status
from engines.release.queries import release_blockers, serious_of, whole_engine
from engines.release.statement import Given, Statement, statement_of, text_of
from engines.visits.models import Visit
from shopfloor.people.models import Person

STANDINGS = ("complied with at this visit", "complied with before, on record", "does not apply", "open")


def text_to_sign(visit: Visit, given: Given, signer: Person, today: date, amends: Release | None = None) -> str:
    return text_of(statement_to_sign(visit, given, signer, today, amends))


def statement_to_sign(visit: Visit, given: Given, signer: Person, today: date, amends: Release | None = None) -> Statement:
    """A constant number of queries. Raises NotAuthorised, FieldRefused, ReleaseHeld."""
    check_may_release(signer, visit, today)
    situation = whole_engine(visit)
    _check_fields(situation, given, today, amends)
    blockers = [] if amends else release_blockers(situation)
    if found := [*blockers, *status_blockers(situation, given.status)]:
        raise ReleaseHeld(found)
    return statement_of(situation, given, serious_of(visit), signer, amends)


def status_blockers(situation: Situation, status: str) -> list[Blocker]:
    """What stands against calling the engine that: overhauled is only what was overhauled, every act of it signed."""
    if status != Status.OVERHAULED:
        return []
    scope = situation.now.visit.scope
    other = f"The engine was received for {scope}, not for overhaul, so it is not released as overhauled."
    return [*([] if scope == "overhaul" else [Blocker(other)]), *acts_missing(situation)]


def _check_fields(situation: Situation, given: Given, today: date, amends: Release | None) -> None:
    if given.status not in Status.values:
        raise FieldRefused(f"Choose what it is released as: {', '.join(Status.values)}.")
    if not given.description.strip():
        raise FieldRefused("Describe the work: the description stands in the logbook.")
    if given.completed_on > today:
        raise FieldRefused("The work is not complete on a day to come. Check the date of completion.")
    if given.completed_on < timezone.localdate(situation.now.visit.received_at):
        raise FieldRefused("The work was not complete before the engine was received. Check the date of completion.")
    directives = {each.number for each in situation.now.rows.data.directives}
    if set(given.directives) != directives or not set(given.directives.values()) <= set(STANDINGS):
        raise FieldRefused("Say of every directive of the engine data how it stands now.")
    if amends and not given.reason.strip():
        raise FieldRefused("Say why the release is amended: the reason is printed and sent to the customer.")
    if amends and given.data is not None and not given.data:
        raise FieldRefused("Name the data used, one document and revision to a line.")
