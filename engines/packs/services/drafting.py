"""The next revision of a route: a draft of versions, each save one more. What is approved is never touched by it.

A save is of the version that its writer saw; where somebody saved another meanwhile it is refused, and nothing is lost.
"""

from collections.abc import Callable
from datetime import datetime

from django.db import transaction

from engines.catalogue import services as catalogue
from engines.catalogue.errors import ChangedMeanwhile, DraftSent, NoSuchOperation, RevisionMissing, RevisionTaken
from engines.catalogue.models import Pack, RouteDraft, RouteText
from engines.catalogue.queries import data_of, newest_text
from engines.catalogue.services import CHAIN
from engines.packs.reading import Mistake, PackMistakes
from engines.packs.reading.mistakes import ROUTE
from engines.packs.reading.texts import MOST_BYTES
from engines.packs.route_text import Route, cut, pack_with
from engines.packs.writing import route_of
from shopfloor.ledger.services import Entry, record
from shopfloor.people.models import Person

REVISION = 40


@transaction.atomic
def open_draft(*, pack: Pack, revision: str, by: Person, at: datetime) -> RouteDraft:
    """From the route of a pack, approved or not. Raises RevisionMissing, RevisionTaken."""
    revision = _revision(pack, revision)
    draft = RouteDraft.objects.create(pack=pack, revision=revision, opened_by=by, opened_at=at)
    text = RouteText.objects.create(draft=draft, version=1, text=route_of(data_of(pack).operations), saved_by=by, saved_at=at)
    record(Entry(chain=CHAIN, kind="route.opened", of=draft), Entry(chain=CHAIN, kind="route.saved", of=text), by=by.pk, at=at)
    return draft


@transaction.atomic
def save_route(*, draft: RouteDraft, seen: int, text: str, by: Person, at: datetime) -> RouteText:
    """The whole text as the next version, mistakes of its operations and all; the same text again is no version more.

    Raises DraftSent, ChangedMeanwhile, and PackMistakes where it is no list of operations.
    """
    return _save(_locked(draft, seen), lambda route: cut(_plain(text)), by, at)


@transaction.atomic
def put_operation(
    *, draft: RouteDraft, seen: int, place: int, entry: str, new: bool = False, by: Person, at: datetime
) -> RouteText:
    """An operation in place of the one there, or a new one before it. Raises NoSuchOperation and what `save_route` raises."""
    text = _plain(entry)
    if len(cut(text).blocks) != 1:
        raise PackMistakes([Mistake(ROUTE, 1, "that is not one operation", "write one entry, beginning with a dash")])

    def changed(route: Route) -> Route:
        if new:
            return route.with_more(_known(route, place, end=1), text)
        return route.with_entry(_known(route, place), text)

    return _save(_locked(draft, seen), changed, by, at)


@transaction.atomic
def move_operation(*, draft: RouteDraft, seen: int, place: int, to: int, by: Person, at: datetime) -> RouteText:
    """Raises NoSuchOperation and what `save_route` raises."""
    return _save(_locked(draft, seen), lambda route: route.moved(_known(route, place), _known(route, to)), by, at)


@transaction.atomic
def remove_operation(*, draft: RouteDraft, seen: int, place: int, by: Person, at: datetime) -> RouteText:
    """Raises NoSuchOperation and what `save_route` raises."""
    return _save(_locked(draft, seen), lambda route: route.without(_known(route, place)), by, at)


@transaction.atomic
def send_in(*, draft: RouteDraft, seen: int, revision: str, by: Person, at: datetime) -> Pack:
    """The data with the new route, as a pack that waits for the check and approval of somebody who did not write in it.

    Raises PackMistakes with all that the loader would say, DraftSent, ChangedMeanwhile, RevisionMissing, RevisionTaken.
    """
    newest = _locked(draft, seen)
    sent = newest.draft
    read = pack_with(data_of(sent.pack), newest.text, _revision(sent.pack, revision))
    pack = catalogue.add_pack(data=read, by=by, at=at)
    sent.sent_as, sent.sent_by, sent.sent_at = pack, by, at
    sent.save(update_fields=["sent_as", "sent_by", "sent_at"])
    record(Entry(chain=CHAIN, kind="route.sent", of=sent), by=by.pk, at=at)
    return pack


def _locked(draft: RouteDraft, seen: int) -> RouteText:
    """The newest version of the draft, nobody else writing there until this ends; it is the one that was seen."""
    locked = RouteDraft.objects.select_for_update(of=("self",)).select_related("pack__model").get(pk=draft.pk)
    if locked.sent_at:
        raise DraftSent
    newest = newest_text(locked)
    if newest.version != seen:
        raise ChangedMeanwhile(newest.saved_by.name, newest.version, seen)
    newest.draft = locked
    return newest


def _save(newest: RouteText, change: Callable[[Route], Route], by: Person, at: datetime) -> RouteText:
    text = change(cut(newest.text)).text
    if len(text.encode()) > MOST_BYTES:
        raise PackMistakes([Mistake(ROUTE, None, "the route is larger than 1 MB", "a route holds plain text only")])
    if text == newest.text:
        return newest
    saved = RouteText.objects.create(draft=newest.draft, version=newest.version + 1, text=text, saved_by=by, saved_at=at)
    record(Entry(chain=CHAIN, kind="route.saved", of=saved), by=by.pk, at=at)
    return saved


def _plain(text: str) -> str:
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")


def _known(route: Route, place: int, *, end: int = 0) -> int:
    """`end` is 1 where the place behind the last one counts too."""
    if not 0 <= place < len(route.blocks) + end:
        raise NoSuchOperation
    return place


def _revision(pack: Pack, revision: str) -> str:
    revision = revision.strip()
    if not revision or len(revision) > REVISION:
        raise RevisionMissing
    if Pack.objects.filter(model_id=pack.model_id, revision=revision).exists():
        raise RevisionTaken(pack.model.code, revision)
    return revision
