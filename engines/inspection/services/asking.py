"""The customer is asked about work beyond the order, and answers once. A refusal undoes the decision; it decides nothing else."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db import transaction
from django.db.models import Max

from engines.inspection.answers import unanswered
from engines.inspection.ends import is_carried_out, is_open, last_decision, still_stands
from engines.inspection.errors import AnsweredAlready, AskedAlready, FieldRefused, NothingToAsk, NotOffered, NotYours
from engines.inspection.facts import inspection_of
from engines.inspection.models import Answer, Discrepancy, Said, Withdrawal, WorkAsked
from engines.inspection.offers import work_offered
from engines.inspection.standing import Kind
from engines.visits.chains import chain_of
from engines.visits.queries import locked_visit
from measurements.metrology.errors import MeasureError
from measurements.metrology.numbers import places_of, read_number
from shopfloor.documents.models import StoredFile
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person
from shopfloor.people.queries import acts_for_customer

PART = re.compile(r"([1-9][0-9]{0,3})(?: *x +| +)(\S.*)")
MOST_PARTS, MOST_PHOTOS, LONGEST_PART, LONGEST_FIGURE = 40, 12, 200, 12
NO_SUCH_WORK = "a customer is asked about work only: no answer of theirs changes a limit or a directive."


@dataclass(frozen=True)
class Asked:
    """What is proposed: `parts` a line each with its quantity first, `hours` and `price` as typed, `photos` to show."""

    kind: Kind
    words: str
    parts: str
    hours: str
    price: str
    currency: str
    photos: Sequence[StoredFile] = ()


@transaction.atomic
def ask_customer(*, discrepancy: Discrepancy, asked: Asked, by: Person, at: datetime) -> WorkAsked:
    """Work on the discrepancy waits from now on. Raises FieldRefused, NotOffered, AskedAlready, NothingToAsk."""
    visit = locked_visit(discrepancy.visit_id)
    now = inspection_of(visit)
    found = next(each for each in now.discrepancies if each.pk == discrepancy.pk)
    if waiting := unanswered(found):
        raise AskedAlready(waiting.number)
    made = last_decision(found)
    if not still_stands(now, found) or (made and is_carried_out(now, found, made) and not is_open(now, found)):
        raise NothingToAsk
    if asked.kind not in work_offered(found):
        raise NotOffered(asked.kind, NO_SUCH_WORK)
    if not asked.words.strip():
        raise FieldRefused("Say in plain words what is proposed and why, for somebody who does not stand at the bench.")
    request = WorkAsked.objects.create(
        visit=visit,
        discrepancy=found,
        number=(WorkAsked.objects.filter(visit=visit).aggregate(last=Max("number"))["last"] or 0) + 1,
        kind=asked.kind,
        words=asked.words.strip()[:600],
        parts="\n".join(_parts(asked.parts)),
        photos=_photos(asked.photos),
        hours=_figure("Hours", asked.hours, 2),
        price=_figure("Price", asked.price, 2),
        currency=_currency(asked.currency),
        asked_by=by,
        asked_at=at,
    )
    record(Entry(chain=chain_of(visit), kind="request.made", of=request), by=by.pk, at=at)
    return request


@transaction.atomic
def answer(*, request: WorkAsked, said: Said, words: str = "", by: Person, at: datetime) -> Answer:
    """By a person of the customer whose engine it is, once. Raises NotYours, AnsweredAlready."""
    visit = locked_visit(request.visit_id)
    if not acts_for_customer(by) or by.customer_id != visit.customer_id:
        raise NotYours
    _check_waits(request)
    given = Answer.objects.create(request=request, said=Said(said), words=words.strip()[:600], answered_by=by, answered_at=at)
    record(Entry(chain=chain_of(visit), kind="request.answered", of=given), by=by.pk, at=at)
    return given


@transaction.atomic
def withdraw(*, request: WorkAsked, words: str, by: Person, at: datetime) -> Withdrawal:
    """By the shop, while nobody has answered. Raises AnsweredAlready, FieldRefused."""
    visit = locked_visit(request.visit_id)
    _check_waits(request)
    if not words.strip():
        raise FieldRefused("Say why it is taken back: the customer reads it.")
    taken = Withdrawal.objects.create(request=request, words=words.strip()[:400], withdrawn_by=by, withdrawn_at=at)
    record(Entry(chain=chain_of(visit), kind="request.withdrawn", of=taken), by=by.pk, at=at)
    return taken


def _check_waits(request: WorkAsked) -> None:
    """As it stands now that the visit is locked, whatever the caller had read before."""
    if answered := Answer.objects.filter(request=request).first():
        raise AnsweredAlready(answered.said)
    if Withdrawal.objects.filter(request=request).exists():
        raise AnsweredAlready("withdrawn")


def _parts(text: str) -> list[str]:
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    if len(lines) > MOST_PARTS:
        raise FieldRefused(f"{len(lines)} lines of parts are more than {MOST_PARTS}. Ask about the work in two requests.")
    return [_part(line) for line in lines]


def _part(line: str) -> str:
    match = PART.fullmatch(line)
    if not match or len(line) > LONGEST_PART:
        raise FieldRefused(f"“{line[:60]}”: begin each line with how many, then what, such as: 2 piston T2-201.")
    return f"{match[1]} {match[2]}"


def _figure(name: str, text: str, most_places: int) -> str:
    try:
        number = read_number(text.strip())
    except MeasureError as error:
        raise FieldRefused(f"{name}: {error}.") from None
    if number < 0 or places_of(number) > most_places or len(text.strip()) > LONGEST_FIGURE:
        raise FieldRefused(f"{name}: write a figure from 0 with at most {most_places} decimals, such as 1250.00.")
    return str(number)


def _currency(text: str) -> str:
    code = text.strip().upper()
    if not re.fullmatch("[A-Z]{3}", code):
        raise FieldRefused("Currency: write its code of three letters, such as EUR (ISO 4217).")
    return code


def _photos(photos: Sequence[StoredFile]) -> list[str]:
    if len(photos) > MOST_PHOTOS or any(not each.media_type.startswith("image/") for each in photos):
        raise FieldRefused(f"Choose at most {MOST_PHOTOS} photos to show.")
    return [each.sha256 for each in photos]
