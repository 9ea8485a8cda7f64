"""Who may do what at Saltmarsh Engine Works: granted by the manager, each with the training that it rests on. All invented."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils.timezone import localdate

from engines.scenario.saying import Say
from engines.traveler.models import Authorisation, Authorised
from engines.traveler.services import authorise
from engines.traveler.trades import trades
from shopfloor.people.models import Person
from shopfloor.people.services import set_certificate

CRACK_TESTS = "crack tests"


@dataclass(frozen=True)
class Granted:
    username: str
    what: Authorised
    training: str
    level: int = 0
    trades: Iterable[str] | None = ()  # None: whatever a bench mechanic does, all but crack tests


BENCH_COURSE = "Engine course of the shop, invented, and two years at the bench under the inspector; record {number}"
GRANTED = (
    Granted("mechanic1", Authorised.WORK, BENCH_COURSE.format(number="SW-T-11"), trades=None),
    Granted("mechanic2", Authorised.WORK, BENCH_COURSE.format(number="SW-T-12"), trades=None),
    Granted("mechanic1", Authorised.WORK, "Crack tests of level 2, invented certificate SW-C-21", level=2, trades=[CRACK_TESTS]),
    Granted("mechanic2", Authorised.WORK, "Crack tests of level 2, invented certificate SW-C-22", level=2, trades=[CRACK_TESTS]),
    Granted("inspector", Authorised.WORK, "Ten years at the bench, invented; record SW-T-01", trades=None),
    Granted("inspector", Authorised.HOLD_POINTS, "Inspector's course, invented, of last year; record SW-T-02"),
    Granted("inspector", Authorised.DATA_APPROVAL, "Course on engine data, invented, of last year; record SW-T-03"),
    Granted("inspector", Authorised.RELEASE, "Course for releases, invented, of last year"),
)


def tell(at: datetime, say: Say) -> None:
    people = {each.username: each for each in Person.objects.all()}
    inspector, manager = people["inspector"], people["manager"]
    if not inspector.certificate_number:
        set_certificate(person=inspector, kind="repairman (invented)", number="SW-R-01", by=manager, at=at)
    for granted in GRANTED:
        _grant(granted, people[granted.username], by=manager, at=at)


def _grant(granted: Granted, person: Person, *, by: Person, at: datetime) -> None:
    kinds = _kinds(granted)
    is_granted = Authorisation.objects.filter(person=person, what=granted.what, training=granted.training).exists()
    if is_granted or (granted.what == Authorised.WORK and not kinds):
        return
    authorise(
        person=person,
        what=granted.what,
        kinds=kinds,
        level=granted.level,
        covers=(),
        valid_from=localdate(at) - timedelta(days=365),
        valid_until=None,
        training=granted.training,
        by=by,
        at=at,
    )


def _kinds(granted: Granted) -> list[str]:
    every = trades()
    chosen = [trade for trade in every if trade != CRACK_TESTS] if granted.trades is None else granted.trades
    return [kind for trade in chosen for kind in every.get(trade, ())]
