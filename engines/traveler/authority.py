"""Whether a person may enter, sign, accept, approve or release: the roster, asked alike by the page and by the act."""

from datetime import date

from engines.traveler.errors import NotAuthorised
from engines.traveler.models import Authorisation
from engines.traveler.needs import APPROVING, Need, covering, why_none
from shopfloor.people.models import Person

MOST_NAMES = 5


def check_authorised(person: Person, need: Need, model: str, day: date) -> Authorisation:
    """The authorisation under which the person does it. One query, two where it raises NotAuthorised with what to do."""
    held = _held_by(person)
    if found := covering(held, need, model, day):
        return found
    raise NotAuthorised(_sentence(held, need, model, day))


def why_not(person: Person, need: Need, model: str, day: date) -> str:
    """The words of the refusal; blank where the person may."""
    try:
        check_authorised(person, need, model, day)
    except NotAuthorised as refused:
        return str(refused)
    return ""


def why_not_approving(person: Person, model: str, day: date) -> str:
    """The same for approving engine data, as the catalogue asks it."""
    return why_not(person, APPROVING, model, day)


def _held_by(person: Person) -> list[Authorisation]:
    """Ended ones too, the newest first."""
    return list(Authorisation.objects.filter(person=person))


def _sentence(held: list[Authorisation], need: Need, model: str, day: date) -> str:
    reason = why_none(held, need, model, day)
    who = ", ".join(_who_may(need, model, day)) or "nobody"
    return (
        f"You have no authorisation for {need.words} {model} engines that counts on {day:%d %b %Y}: {reason}. "
        f"Authorised today: {who}. A shop manager grants it on the page Authorisations, with the evidence of training."
    )


def _who_may(need: Need, model: str, day: date) -> list[str]:
    """The names of those who may, each once, the first few."""
    open_ones = Authorisation.objects.filter(what=need.what, ended_at__isnull=True, person__is_active=True)
    found = (each for each in open_ones.select_related("person") if covering([each], need, model, day))
    return sorted({each.person.name for each in found})[:MOST_NAMES]
