"""The roster: who is authorised for which kind of work on which engines. Nobody grants or ends their own."""

from collections.abc import Iterable
from datetime import date, datetime

from django.db import transaction

from engines.catalogue.models import EngineModel
from engines.steps.registry import STEPS
from engines.traveler.errors import AuthorisationRefused, EndedAlready
from engines.traveler.models import HIGHEST_LEVEL, Authorisation, Authorised
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person
from shopfloor.people.services.administering import lock_for_change

CHAIN = "people"


@transaction.atomic
def authorise(
    *,
    person: Person,
    what: Authorised,
    covers: Iterable[str],
    valid_from: date,
    valid_until: date | None,
    training: str,
    kinds: Iterable[str] = (),
    level: int = 0,
    by: Person,
    at: datetime,
) -> Authorisation:
    """`covers` names engine models, none: all of them; `kinds` the kinds of step of work at operations, with their `level`.

    Raises OwnAccount, NotAManager, Erased, AuthorisationRefused.
    """
    person = lock_for_change(person, by=by)
    covers, kinds = sorted(set(covers)), sorted(set(kinds))
    _check_work(what, kinds, level)
    known = set(EngineModel.objects.filter(code__in=covers).values_list("code", flat=True))
    if unknown := [code for code in covers if code not in known]:
        raise AuthorisationRefused(f"No engine data is on record for {', '.join(unknown)}. Choose models from the list.")
    if not person.is_active:
        raise AuthorisationRefused("This account is not active. Reactivate it first.")
    if not training.strip():
        raise AuthorisationRefused("Say what training or experience it rests on: an auditor asks for it.")
    if valid_until and valid_until < valid_from:
        raise AuthorisationRefused("It ends before it begins: check both days.")
    granted = Authorisation.objects.create(
        person=person,
        what=what,
        kinds=kinds,
        level=level,
        covers=covers,
        valid_from=valid_from,
        valid_until=valid_until,
        training=training.strip()[:600],
        granted_by=by,
        granted_at=at,
    )
    record(Entry(chain=CHAIN, kind="authorisation.granted", of=granted), by=by.pk, at=at)
    return granted


def _check_work(what: Authorised, kinds: list[str], level: int) -> None:
    if unknown := [kind for kind in kinds if kind not in STEPS]:
        raise AuthorisationRefused(f"There is no work of the kind {', '.join(unknown)}. Choose from the list.")
    if what == Authorised.WORK and not kinds:
        raise AuthorisationRefused("Choose which work at operations it is for.")
    if what != Authorised.WORK and (kinds or level):
        raise AuthorisationRefused("Kinds of work and a level are chosen for work at operations only. Grant them by themselves.")
    if not 0 <= level <= HIGHEST_LEVEL:
        raise AuthorisationRefused(f"Levels of training go from 1 to {HIGHEST_LEVEL}.")


@transaction.atomic
def end_authorisation(*, authorisation: Authorisation, by: Person, at: datetime) -> Authorisation:
    """At once. What was signed under it stays valid. Raises OwnAccount, NotAManager, EndedAlready."""
    lock_for_change(authorisation.person, by=by)
    open_now = Authorisation.objects.select_for_update().get(pk=authorisation.pk)
    if open_now.ended_at:
        raise EndedAlready
    open_now.ended_by, open_now.ended_at = by, at
    open_now.save(update_fields=["ended_by", "ended_at"])
    record(Entry(chain=CHAIN, kind="authorisation.ended", of=open_now), by=by.pk, at=at)
    return open_now
