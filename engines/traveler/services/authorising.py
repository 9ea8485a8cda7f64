"""The roster: who is authorised for which kind of work on which engines. Nobody grants or ends their own."""

from collections.abc import Iterable
from datetime import date, datetime

from django.db import transaction

from engines.catalogue.models import EngineModel
from engines.traveler.errors import AuthorisationRefused, EndedAlready
from engines.traveler.models import Authorisation, Authorised
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
    by: Person,
    at: datetime,
) -> Authorisation:
    """`covers` names engine models, none: all of them. Raises OwnAccount, NotAManager, Erased, AuthorisationRefused."""
    person = lock_for_change(person, by=by)
    covers = sorted(set(covers))
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
        covers=covers,
        valid_from=valid_from,
        valid_until=valid_until,
        training=training.strip()[:600],
        granted_by=by,
        granted_at=at,
    )
    record(Entry(chain=CHAIN, kind="authorisation.granted", of=granted), by=by.pk, at=at)
    return granted


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
