"""Whether a person may sign a release: role, roster and certificate. One rule for the page and for the act."""

from datetime import date

from engines.release.errors import NotAuthorised
from engines.traveler import authority
from engines.traveler.needs import RELEASING
from engines.visits.models import Visit
from shopfloor.people.models import Person
from shopfloor.people.permissions import Permission, may, refusal

NO_CERTIFICATE = (
    "No certificate number and kind are on record for you, and a release must name both. A shop manager enters them on your page."
)


def check_may_release(person: Person, visit: Visit, day: date) -> None:
    """Raises NotAuthorised with what to do. The person is read anew, so that a certificate changed meanwhile counts."""
    if why := why_not(person, visit, day):
        raise NotAuthorised(why)


def why_not(person: Person, visit: Visit, day: date) -> str:
    """The first reason that this person cannot release this engine on this day; blank when they can."""
    if not may(person, Permission.RELEASE):
        return refusal(Permission.RELEASE)
    if refused := authority.why_not(person, RELEASING, visit.engine.model.code, day):
        return refused
    if not (person.certificate_kind and person.certificate_number):
        return NO_CERTIFICATE
    return ""
