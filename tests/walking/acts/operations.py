"""At an operation: something is entered or read, its page is opened, it is signed, accepted, or opened again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engines.steps.registry import step_of
from engines.steps.work import StepRefused
from engines.traveler.queries import operations
from engines.traveler.services import accept, enter, measure, reopen, sign
from engines.traveler.services.signing import sha256_of
from engines.traveler.work import shown_text, work_on
from measurements.gauges.models import Gauge
from measurements.readings.models import Reading
from shopfloor.people.permissions import Permission
from tests.walking.acts.entries import given_at
from tests.walking.attempt import Attempt
from tests.walking.clerk import undone
from tests.walking.dice import slip
from tests.walking.found import found_on
from tests.walking.joint import joint_of
from tests.walking.planned import Planned, entries
from tests.walking.route import LINES

if TYPE_CHECKING:
    from tests.walking.walk import Walk

GOOD = {"journal": "2.1245", "skirt": "4.3635"}
OTHERS = {"journal": ["2.1235", "2.1200", "2.1240"], "skirt": ["4.3620", "4.3500", "4.3610"]}  # worn, outside, close
ROW = {"journal": "journal", "skirts": "skirt"}


def to_do(walk: Walk) -> list[Planned]:
    return [each for each in walk.ready() if undone(each, walk.desk)]


def to_sign(walk: Walk) -> list[Planned]:
    return [each for each in walk.ready() if not undone(each, walk.desk)]


def to_accept(walk: Walk) -> list[Planned]:
    return [each for each in walk.planned if each.signed_by and each.hold_point and not each.accepted_by]


def to_read_again(walk: Walk) -> list[Planned]:
    """Signed, and made history by a rework or a new part since."""
    return [each for each in walk.planned if each.kind == "reading" and each.signed_by and _unread(walk, each)]


def read_again(walk: Walk) -> Attempt | None:
    return take_reading(walk, walk.rng.one_of(to_read_again(walk)))


def type_in(walk: Walk) -> Attempt | None:
    """Of the operations that wait for it, or now and then of any."""
    operation = walk.rng.one_of(to_do(walk), otherwise=walk.too_early())
    if operation is None:
        return None
    if operation.kind == "reading" and not slip(walk.rng, 0.05):
        return take_reading(walk, operation)
    given = given_at(walk.rng, operation, walk.desk)
    hand = joint_of(entries(operation)).hand if operation.kind == "torque-group" and not slip(walk.rng, 0.07) else 0
    return Attempt(
        f"enters at {operation.code}: {given}",
        Permission.DO_WORK,
        ("benches:enter", operation.id),
        lambda by, at: enter(operation=walk.instance(operation), given=given, by=by, at=at),
        by=walk.crew.person(hand),
    )


def take_reading(walk: Walk, operation: Planned | None = None) -> Attempt | None:
    """Of a row where it belongs; also again, where the operation is signed."""
    operation = operation or walk.rng.one_of([each for each in walk.planned if each.kind == "reading"])
    if operation is None:
        return None
    row, place = ROW[operation.code], walk.rng.one_of(_unread(walk, operation), otherwise=LINES[operation.code][1:])
    figure, gauge = _figure(walk, row), "G-1" if slip(walk.rng, 0.2) else ""
    return _read(walk, operation, row, place, figure, gauge, None)


def correct_reading(walk: Walk) -> Attempt | None:
    found = Reading.objects.filter(taken__visit=walk.visit).select_related("taken", "row").order_by("taken_at")
    reading = walk.rng.one_of(list(found))
    operation = next((each for each in walk.planned if reading and ROW.get(each.code) == reading.row.row), None)
    if reading is None or operation is None:
        return None
    figure = _figure(walk, reading.row.row)
    return _read(walk, operation, reading.row.row, reading.taken.place, figure, "", reading)


def _figure(walk: Walk, row: str) -> str:
    return walk.rng.choice(OTHERS[row]) if slip(walk.rng, 0.25) else GOOD[row]


def _unread(walk: Walk, operation: Planned) -> list[str]:
    """Places where no reading stands: never read, or history since a rework."""
    found = found_on(walk.visit.pk)
    line, *places = LINES[operation.code]
    return [place for place in places if found.standing((line, place)) is None]


def _read(walk: Walk, operation: Planned, row: str, place: str, figure: str, gauge: str, corrects: Reading | None) -> Attempt:
    again = {} if slip(walk.rng, 0.1) else {"read_again": "on"}
    data = {"point_0": figure, "temperature": "", "correction_reason": "misread", **again}

    def do(by, at):
        shown = walk.instance(operation)
        work = work_on(shown.area.visit, shown)
        chosen = Gauge.objects.get(number=gauge).pk if gauge else ""
        form = step_of("reading").form_at(work, row, place, corrects, {**data, "gauge": chosen})
        if not form.is_valid():
            raise StepRefused(form.errors.as_text())
        return measure(operation=shown, row=row, place=place, form=form, corrects=corrects, by=by, at=at)

    words = f"{'corrects' if corrects else 'reads'} {row} at {place}: {figure} {gauge}"
    return Attempt(words, Permission.DO_WORK, ("benches:take", operation.id), do)


def open_page(walk: Walk) -> Attempt | None:
    """What is seen is remembered, and may be signed much later."""
    operation = walk.rng.one_of(to_sign(walk) + to_accept(walk), otherwise=walk.too_early())
    if operation is None:
        return None
    needs = Permission.ACCEPT_WORK if operation.signed_by else Permission.DO_WORK
    hand = joint_of(entries(operation)).hand if operation.kind == "torque-group" else 0
    person = walk.crew.person(hand) or walk.rng.one_of(
        [each for each in walk.crew.who_may(needs) if each.pk != operation.signed_by]
    )

    def do(by, at):
        shown = operations().get(pk=operation.id)
        walk.pages.append((by, operation, sha256_of(shown_text(shown, work_on(shown.area.visit, shown, at, by)))))
        return shown

    return Attempt(
        f"looks at {operation.code}", Permission.SEE_WORK, ("benches:operation", operation.id), do, looks=True, by=person
    )


def put_name(walk: Walk) -> Attempt | None:
    """Sign what lies open: the page opened last, where it makes sense, or an old one."""
    wanted = {each.id for each in to_sign(walk) + to_accept(walk)}
    likely = [page for page in reversed(walk.pages) if page[1].id in wanted]
    page = walk.rng.one_of(likely[:1], otherwise=walk.pages)
    if page is None:
        return open_page(walk)
    walk.pages.remove(page)
    person, operation, seen = page
    now = next((each for each in walk.planned if each.id == operation.id), operation)
    if now.signed_by and (now.hold_point or slip(walk.rng)):
        return Attempt(
            f"accepts {operation.code}",
            Permission.ACCEPT_WORK,
            ("benches:accept", operation.id),
            lambda by, at: accept(operation=walk.instance(operation), seen_sha256=seen, by=by, at=at),
            by=person,
        )
    return Attempt(
        f"signs {operation.code}",
        Permission.DO_WORK,
        ("benches:sign", operation.id),
        lambda by, at: sign(operation=walk.instance(operation), seen_sha256=seen, by=by, at=at),
        by=person,
    )


def open_again(walk: Walk) -> Attempt | None:
    operation = walk.rng.one_of(walk.planned)
    if operation is None:
        return None
    reason = "" if slip(walk.rng) else "seen again"
    return Attempt(
        f"opens {operation.code} again",
        Permission.ACCEPT_WORK,
        ("benches:open-again", operation.id),
        lambda by, at: reopen(operation=walk.instance(operation), reason=reason, by=by, at=at),
    )
