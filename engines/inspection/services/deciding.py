"""What becomes of a discrepancy: decided with the data it rests on, signed twice where the limit is conceded, carried out."""

from dataclasses import dataclass
from datetime import datetime

from django.db import transaction

from engines.inspection.answers import check_may_be_done, refusal_of, unanswered
from engines.inspection.ends import still_stands
from engines.inspection.errors import (
    Answered,
    AwaitsAnswer,
    CustomerRefused,
    DecidedAlready,
    FieldRefused,
    NotOffered,
    SameHand,
    SignedAlready,
)
from engines.inspection.facts import Inspection, discrepancies_of, inspection_of
from engines.inspection.hooks import tell_after_work
from engines.inspection.models import CarriedOut, Discrepancy, Disposition
from engines.inspection.offers import check_offered
from engines.inspection.standing import NEW_PART, Kind, Requirement
from engines.parts.models import Item
from engines.parts.services import scrap_item, take_off
from engines.visits.chains import chain_of
from engines.visits.models import Tagged
from engines.visits.queries import locked_visit
from engines.visits.services import Identity, tag_replacement
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person


@dataclass(frozen=True)
class Data:
    """The approved data that a decision cites."""

    document: str
    revision: str
    page: str


@transaction.atomic
def decide(
    *, discrepancy: Discrepancy, kind: Kind, data: Data, words: str, mate: str = "", seen: int = 0, by: Person, at: datetime
) -> Disposition:
    """`mate` names the row of the part that is touched, where the discrepancy is a fit; `seen` is how many decisions the
    person had before their eyes.

    Raises FieldRefused, NotOffered, DecidedAlready, Answered, AwaitsAnswer.
    """
    visit = locked_visit(discrepancy.visit_id)
    now = inspection_of(visit)
    found = next(each for each in now.discrepancies if each.pk == discrepancy.pk)
    if len(found.made) != seen:
        raise DecidedAlready
    if not still_stands(now, found):
        raise Answered
    check_offered(kind, found)
    if kind == Kind.SCRAP and (waiting := unanswered(found)):
        raise AwaitsAnswer(found.number, waiting.number)
    if not (data.document.strip() and data.revision.strip() and data.page.strip()):
        raise FieldRefused("A decision cites its data: name the document, its revision, and the page or figure.")
    if not words.strip():
        raise FieldRefused("Say in a sentence why this is right, or what is to be done.")
    touched = _touched(now, found, kind, mate)
    made = Disposition.objects.create(
        discrepancy=found,
        kind=kind,
        line=touched.line if touched else found.line,
        at=touched.at if touched else found.at,
        row=touched.row if touched else "",
        place=touched.place if touched else "",
        document=data.document.strip(),
        document_revision=data.revision.strip(),
        page=data.page.strip(),
        words=words.strip()[:600],
        made_by=by,
        made_at=at,
    )
    _scrap(now, made, by, at)
    record(Entry(chain=chain_of(visit), kind="disposition.made", of=made), by=by.pk, at=at)
    return made


@transaction.atomic
def sign_second(*, disposition: Disposition, by: Person, at: datetime) -> Disposition:
    """The second signature on a concession. Raises SameHand, SignedAlready, NotOffered, CustomerRefused."""
    visit = locked_visit(disposition.discrepancy.visit_id)
    made = Disposition.objects.select_for_update().get(pk=disposition.pk)
    if made.kind != Kind.CONCESSION:
        raise NotOffered(made.kind, "only a concession is signed a second time.")
    if made.made_by_id == by.pk:
        raise SameHand
    if made.second_at:
        raise SignedAlready
    if refused := refusal_of(discrepancy_of(disposition), made):
        raise CustomerRefused(disposition.discrepancy.number, refused.number)
    made.second_by, made.second_at = by, at
    made.save(update_fields=["second_by", "second_at"])
    record(Entry(chain=chain_of(visit), kind="disposition.seconded", of=made), by=by.pk, at=at)
    return made


@transaction.atomic
def carry_out(*, disposition: Disposition, words: str, by: Person, at: datetime) -> CarriedOut:
    """The rework of a finding is done. Raises NotOffered, SignedAlready, FieldRefused, AwaitsAnswer, CustomerRefused."""
    visit = locked_visit(disposition.discrepancy.visit_id)
    if disposition.kind != Kind.REWORK or disposition.row:
        raise NotOffered("done", "a rework after a reading is done when the part is read again; a new part when it is tagged.")
    if CarriedOut.objects.filter(disposition=disposition).exists():
        raise SignedAlready
    check_may_be_done(discrepancy_of(disposition), disposition)
    if not words.strip():
        raise FieldRefused("Say what was done.")
    done = CarriedOut.objects.create(disposition=disposition, words=words.strip()[:400], done_by=by, done_at=at)
    record(Entry(chain=chain_of(visit), kind="disposition.carried-out", of=done), by=by.pk, at=at)
    tell_after_work(visit, by, at)
    return done


@transaction.atomic
def take_its_place(
    *, disposition: Disposition, item: Item | None = None, identity: Identity | None = None, words: str, by: Person, at: datetime
) -> Tagged:
    """Another part takes the place of the one that was decided about.

    Raises NotOffered, AwaitsAnswer, CustomerRefused, and what `tag_replacement` raises.
    """
    visit = locked_visit(disposition.discrepancy.visit_id)
    if disposition.kind not in NEW_PART:
        raise NotOffered("another part", "the decision is that this one stays. Let an inspector decide anew.")
    check_may_be_done(discrepancy_of(disposition), disposition)
    tagged = tag_replacement(
        visit=visit, line=disposition.line, place=disposition.at, item=item, identity=identity, words=words, by=by, at=at
    )
    tell_after_work(visit, by, at)
    return tagged


def discrepancy_of(disposition: Disposition) -> Discrepancy:
    """With its decisions and requests, as they stand now."""
    return discrepancies_of(disposition.discrepancy.visit).get(pk=disposition.discrepancy_id)


def _touched(now: Inspection, found: Discrepancy, kind: Kind, mate: str) -> Requirement | None:
    """The requirement whose readings a rework makes history, and whose part it is; None for a finding in words."""
    requirement = now.rows.by_key.get((found.row, found.place))
    if requirement is None:
        return None
    if requirement.mates and kind not in (Kind.ACCEPT, Kind.CONCESSION):
        if mate not in requirement.mates:
            raise FieldRefused("Say which of the two parts it is done to.")
        return now.rows.by_key[mate, found.place]
    base = now.rows.by_key.get((requirement.base, found.place)) if requirement.base else None
    return base or requirement


def _scrap(now: Inspection, made: Disposition, by: Person, at: datetime) -> None:
    tagged = now.tagged.get((made.line, made.at))
    if made.kind == Kind.SCRAP and tagged and tagged.item and not tagged.item.scrapped_at:
        reason = f"scrapped by the decision on discrepancy {made.discrepancy.number}"
        take_off(root=now.visit.engine.item, lines=[made.line], item=tagged.item, reason=reason, by=by, at=at)
        scrap_item(item=tagged.item, reason=made.words, by=by, at=at)
