"""What is found wrong: raised, decided, signed twice, done; and what the customer says about it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engines.inspection.models import Discrepancy, Disposition, Said, WorkAsked
from engines.inspection.services import (
    Asked,
    answer,
    ask_customer,
    carry_out,
    decide,
    raise_discrepancy,
    sign_second,
    take_its_place,
    withdraw,
)
from engines.inspection.services.deciding import Data
from engines.inspection.standing import NEW_PART, Kind
from engines.release.models import SeriousDefect
from engines.release.services import mark_serious, report_serious
from engines.visits.services import Identity
from measurements.metrology.verdicts import GOOD
from measurements.readings.models import Reading
from shopfloor.people.permissions import Permission
from tests.walking.attempt import Attempt
from tests.walking.dice import slip
from tests.walking.found import found_on
from tests.walking.gates import open_ones, undone_decisions
from tests.walking.route import AREA_OF, LINES

if TYPE_CHECKING:
    from tests.walking.walk import Walk

CITED = Data("T2-90 invented manual", "3", "page 4-4")
UNCITED = Data("", "3", "page 4-4")
PROPOSED = {"words": "bore it out", "parts": "2 ring set", "hours": "6.5", "price": "1250.00", "currency": "EUR"}


def raise_in_words(walk: Walk) -> Attempt | None:
    area = walk.rng.one_of(list(walk.stages))
    if area is None:
        return None
    line, *places = walk.rng.choice([LINES["strip"], LINES["home"], ("", "")])
    return _raise(walk, area, line, walk.rng.choice(places), "" if slip(walk.rng) else "a stud is bent")


def _raise(walk: Walk, area: str, line: str, place: str, words: str) -> Attempt:
    given = {"area": area, "line": line, "place": place, "words": words}
    return Attempt(
        f"raises {given}",
        Permission.DO_WORK,
        ("benches:raise", walk.area(area).pk),
        lambda by, at: raise_discrepancy(visit=walk.visit, **given, by=by, at=at),
    )


def gone(walk: Walk) -> list[tuple[str, str]]:
    """Places where nothing good is, and nobody has asked for another part."""
    found = found_on(walk.visit.pk)
    asked = {(each.line, each.at) for each in found.decisions if each.counts and each.kind in NEW_PART}
    asked |= {(each.line, each.at) for each in found.findings if found.last(each) is None}
    return [spot for spot, now in found.tagged.items() if (not now.item or now.scrapped_at) and spot not in asked]


def raise_gone(walk: Walk) -> Attempt | None:
    spot = walk.rng.one_of(gone(walk))
    return _raise(walk, AREA_OF[spot[0]], *spot, "it is gone") if spot else None


def raise_a_reading(walk: Walk) -> Attempt | None:
    bad = Reading.objects.filter(taken__visit=walk.visit, discrepancy__isnull=True).order_by("taken_at")
    reading = walk.rng.one_of(list(bad.exclude(verdict__in=GOOD)), otherwise=list(bad))
    if reading is None:
        return None
    return Attempt(
        f"raises the reading {reading.verdict}",
        Permission.DO_WORK,
        ("benches:raise-from", walk.visit.pk, reading.pk),
        lambda by, at: raise_discrepancy(visit=walk.visit, area="", words="", reading=reading, by=by, at=at),
    )


def decide_it(walk: Walk) -> Attempt | None:
    every = list(Discrepancy.objects.filter(visit=walk.visit).select_related("reading").order_by("number"))
    waiting = set(open_ones(walk.visit.pk))
    found = walk.rng.one_of([each for each in every if each.number in waiting], otherwise=every)
    if found is None:
        return None
    kind = walk.rng.choice([*_sensible(found) * 3, *Kind])
    made = found.dispositions.count()
    seen, data = made - slip(walk.rng, 0.08), UNCITED if slip(walk.rng, 0.05) else CITED
    return Attempt(
        f"decides {found.number}: {kind}",
        Permission.DISPOSE,
        ("benches:decide", found.pk),
        lambda by, at: decide(discrepancy=found, kind=kind, data=data, words="as the data say", seen=seen, by=by, at=at),
    )


def _sensible(found: Discrepancy) -> list[Kind]:
    if found.words == "it is gone" or "was not there" in found.words:
        return [Kind.REPLACE]
    is_outside = found.reading is not None and found.reading.verdict == "outside limits"
    return [Kind.REWORK, Kind.CONCESSION] if is_outside else [Kind.ACCEPT, Kind.REWORK]


def sign_again(walk: Walk) -> Attempt | None:
    """A concession, by a second person or by the first one again."""
    every = _decisions(walk)
    made = walk.rng.one_of([each for each in every if each.kind == Kind.CONCESSION and not each.second_by_id], otherwise=every)
    if made is None:
        return None
    return Attempt(
        f"signs the decision on {made.discrepancy.number} again",
        Permission.SECOND_CONCESSION,
        ("benches:second", made.discrepancy_id, made.pk),
        lambda by, at: sign_second(disposition=made, by=by, at=at),
    )


def do_it(walk: Walk) -> Attempt | None:
    """A rework that was decided, or the part that takes another's place."""
    every, waiting = _decisions(walk), set(undone_decisions(walk.visit.pk))
    made = walk.rng.one_of([each for each in every if each.pk in waiting], otherwise=every)
    if made is None:
        return None
    if made.kind not in NEW_PART and not slip(walk.rng, 0.05):
        words = "" if slip(walk.rng, 0.05) else "filed"
        return Attempt(
            f"carries out the decision on {made.discrepancy.number}",
            Permission.DO_WORK,
            ("benches:done", made.discrepancy_id, made.pk),
            lambda by, at: carry_out(disposition=made, words=words, by=by, at=at),
        )
    identity = Identity(serial=f"new-{walk.seed}-{walk.steps}")
    return Attempt(
        f"puts {identity.serial} at {made.line} {made.at}",
        Permission.DO_WORK,
        ("benches:replace", made.discrepancy_id, made.pk),
        lambda by, at: take_its_place(disposition=made, identity=identity, words="new", by=by, at=at),
    )


def ask(walk: Walk) -> Attempt | None:
    found = walk.rng.one_of(list(Discrepancy.objects.filter(visit=walk.visit).order_by("number")))
    if found is None:
        return None
    asked = Asked(kind=walk.rng.choice(list(Kind)), **PROPOSED | ({"hours": "many"} if slip(walk.rng, 0.05) else {}))
    return Attempt(
        f"asks the customer about {found.number}: {asked.kind}",
        Permission.ASK_CUSTOMER,
        ("benches:ask", found.pk),
        lambda by, at: ask_customer(discrepancy=found, asked=asked, by=by, at=at),
    )


def reply(walk: Walk) -> Attempt | None:
    """The customer, or another one; or the shop takes it back."""
    every = list(WorkAsked.objects.filter(visit=walk.visit).order_by("number"))
    request = walk.rng.one_of([each for each in every if each.waits], otherwise=every)
    if request is None:
        return None
    if slip(walk.rng, 0.2):
        return Attempt(
            f"takes back request {request.number}",
            Permission.ASK_CUSTOMER,
            ("benches:withdraw", request.pk),
            lambda by, at: withdraw(request=request, words="rung up", by=by, at=at),
        )
    said = walk.rng.choice([Said.APPROVED, Said.APPROVED, Said.REFUSED])
    return Attempt(
        f"says of request {request.number}: {said}",
        Permission.ANSWER_REQUESTS,
        ("benches:answer", request.pk),
        lambda by, at: answer(request=request, said=said, by=by, at=at),
        by=None if slip(walk.rng, 0.2) else walk.crew.customers_own,
    )


def call_serious(walk: Walk) -> Attempt | None:
    found = walk.rng.one_of(list(Discrepancy.objects.filter(visit=walk.visit).order_by("number")))
    if found is None:
        return None
    if defect := SeriousDefect.objects.filter(pk=found.pk).first():
        return Attempt(
            f"reports {found.number}",
            Permission.DISPOSE,
            ("benches:report-serious", found.pk),
            lambda by, at: report_serious(defect=defect, reported_to="the authority", by=by, at=at),
        )
    return Attempt(
        f"marks {found.number} serious",
        Permission.DISPOSE,
        ("benches:mark-serious", found.pk),
        lambda by, at: mark_serious(discrepancy=found, by=by, at=at),
    )


def _decisions(walk: Walk) -> list[Disposition]:
    found = Disposition.objects.filter(discrepancy__visit=walk.visit).select_related("discrepancy__visit")
    return list(found.order_by("made_at"))
