"""The engine leaves: its text is looked at and signed; later it is amended, and the customer sees the notice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engines.release.checking import text_to_sign
from engines.release.errors import ReleaseHeld
from engines.release.models import Notice, Release
from engines.release.queries import release_blockers, whole_engine
from engines.release.services import amend, release, see_notice
from engines.release.services.releasing import sha256_of
from engines.visits.queries import visible_visits
from shopfloor.people.models import Person
from shopfloor.people.permissions import Permission
from tests.walking.attempt import Attempt
from tests.walking.dice import slip
from tests.walking.gates import may_hold_release

if TYPE_CHECKING:
    from tests.walking.walk import Walk


def let_go(walk: Walk) -> Attempt:
    """The page is opened; what it shows is signed at once, or something else is."""
    status = walk.rng.choice(["repaired", "repaired", "overhauled"])
    given = walk.crew.given(status=status, **({"directives": {}} if slip(walk.rng, 0.05) else {}))
    seen = "another text" if slip(walk.rng, 0.05) else ""

    def do(by, at):
        visit = visible_visits(walk.crew.manager).get(pk=walk.visit.pk)
        told = release_blockers(whole_engine(visit))
        walk.expect(bool(may_hold_release(walk.desk)) or not told, f"nothing holds the release, yet it is held: {told}")
        try:
            shown = sha256_of(text_to_sign(visit, given, Person.objects.get(pk=by.pk), at.date()))
            signed = release(visit=visit, given=given, seen_sha256=seen or shown, by=by, at=at)
        except ReleaseHeld as held:
            missing = [each for each in told if each not in held.blockers]
            walk.expect(not missing, f"held, but not told why: {missing}")
            walk.expect(bool(told) or status == "overhauled", f"held although its page says nothing: {held.blockers}")
            raise
        walk.expect(not told, f"released although its page says: {told}")
        return signed

    person = None if slip(walk.rng, 0.3) else walk.crew.inspector
    return Attempt(f"releases as {status}", Permission.RELEASE, ("benches:sign-release", walk.visit.pk), do, by=person)


def put_right(walk: Walk) -> Attempt | None:
    every = list(Release.objects.filter(visit=walk.visit).order_by("number"))
    earlier = walk.rng.one_of(every[-1:], otherwise=every)
    if earlier is None:
        return None
    given = walk.crew.given(status="repaired", reason="" if slip(walk.rng) else "a document was left out")

    def do(by, at):
        visit = visible_visits(walk.crew.manager).get(pk=walk.visit.pk)
        seen = sha256_of(text_to_sign(visit, given, Person.objects.get(pk=by.pk), at.date(), earlier))
        return amend(release=earlier, given=given, seen_sha256=seen, by=by, at=at)

    return Attempt(f"amends release {earlier.number}", Permission.RELEASE, ("benches:sign-amendment", earlier.pk), do)


def see(walk: Walk) -> Attempt | None:
    every = list(Notice.objects.filter(release__visit=walk.visit).order_by("made_at"))
    notice = walk.rng.one_of([each for each in every if each.seen_at is None], otherwise=every)
    if notice is None:
        return None
    return Attempt(
        "sees the notice",
        Permission.ANSWER_NOTICES,
        ("benches:notice-seen", notice.pk),
        lambda by, at: see_notice(notice=notice, by=by, at=at),
        by=walk.crew.customers_own,
    )
