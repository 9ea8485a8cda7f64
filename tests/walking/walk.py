"""One walk: a seed, a small engine, and one act after the other, each watched."""

from collections.abc import Callable, Sequence
from datetime import timedelta
from typing import Any, TypeVar

from django.core.exceptions import PermissionDenied
from django.http import Http404
from django.test import RequestFactory
from django.urls import resolve, reverse

from engines.benches.refusals import REFUSED
from engines.testbench.errors import StandRefused
from engines.traveler.models import Operation
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import areas
from shopfloor.people.models import Person
from shopfloor.people.permissions import may
from tests.walking.acts import found, leaving, moving, operations, parts, stand
from tests.walking.acts.entries import Dice, slip
from tests.walking.attempt import Attempt
from tests.walking.clerk import Desk
from tests.walking.crew import Crew
from tests.walking.gates import LAST, half_conceded, open_ones, ran_well, undone_decisions, waiting
from tests.walking.planned import Planned, stages
from tests.walking.planned import operations as planned_operations
from tests.walking.route import AFTER
from tests.walking.rules import broken, released
from tests.walking.watch import LEDGER, Watch, value

Thing = TypeVar("Thing")
Act = Callable[["Walk"], Attempt | None]
REFUSALS = (*REFUSED, StandRefused)
# What somebody who knows the job does next, while the rows say that there is something of it.
USEFUL: dict[Act, Callable[["Walk"], object]] = {
    operations.type_in: operations.to_do,
    operations.put_name: lambda walk: operations.to_sign(walk) + operations.to_accept(walk),
    operations.read_again: operations.to_read_again,
    moving.move_on: moving.can_move,
    moving.bring_back: moving.left_behind,
    found.raise_gone: found.gone,
    found.decide_it: lambda walk: open_ones(walk.visit.pk),
    found.do_it: lambda walk: undone_decisions(walk.visit.pk),
    found.sign_again: lambda walk: half_conceded(walk.visit.pk),
    found.reply: lambda walk: waiting(walk.visit.pk),
    stand.run_on: lambda walk: walk.stages["engine"] == "test" and not ran_well(walk.desk),
    leaving.let_go: lambda walk: walk.stages["engine"] == "release",
}
# Whatever else comes into somebody's head, in place or out of it.
OTHER = {
    **dict.fromkeys(USEFUL, 3),
    operations.open_page: 3,
    operations.take_reading: 2,
    operations.correct_reading: 3,
    operations.open_again: 3,
    moving.move_back: 2,
    moving.change_bench: 1,
    moving.receive: 1,
    found.raise_in_words: 2,
    found.raise_a_reading: 2,
    found.ask: 2,
    found.call_serious: 1,
    stand.begin: 1,
    parts.scrap: 1,
    leaving.put_right: 1,
    leaving.see: 1,
}
GONE = {leaving.put_right: 2, leaving.see: 1, moving.receive: 4}


class Broken(AssertionError):
    """Something is so that may never be so."""


class Walk:
    def __init__(self, crew: Crew, watch: Watch, seed: int) -> None:
        self.crew, self.watch, self.seed, self.rng = crew, watch, seed, Dice(seed)
        self.visit: Visit | None = None
        self.pages: list[tuple[Person, Planned, str]] = []
        self.told: list[str] = []
        self.steps = self.done = self.refused = self.sent_away = 0
        self._instances: dict[Any, Operation] = {}

    # What is at hand

    def take_up(self, visit: Visit) -> None:
        self.visit, self._instances = visit, {}
        self._areas = {area.code: area for area in areas().filter(visit=visit)}
        self.pages.clear()

    @property
    def desk(self) -> Desk:
        return Desk(self.visit.pk, self.visit.engine_id, self.visit.number)

    def instance(self, operation: Planned) -> Operation:
        """As somebody fetched it once: what a service rests on, it reads anew."""
        if operation.id not in self._instances:
            every = Operation.objects.select_related("area__visit__pack__model", "area__visit__engine__item").filter(
                area__visit=self.visit
            )
            self._instances = {each.pk: each for each in every}
        return self._instances[operation.id]

    def area(self, code: str) -> VisitArea:
        """As somebody fetched it once, standing where it stands now."""
        self._areas[code].stage = self.stages[code]
        return self._areas[code]

    def ready(self) -> list[Planned]:
        """Not signed, its area there, and everything before it complete."""
        complete = {each.code for each in self.planned if each.is_complete}
        known = {each.code for each in self.planned}
        return [
            each
            for each in self.planned
            if not each.signed_by and each.stage == each.area_stage and set(AFTER[each.code]) & known <= complete
        ]

    def is_worked_off(self, code: str) -> bool:
        here = [each for each in self.planned if each.area == code and each.stage == each.area_stage]
        return self.stages[code] != LAST[code] and all(each.is_complete for each in here)

    def one_of(self, likely: Sequence[Thing], otherwise: Sequence[Thing] = ()) -> Thing | None:
        """Mostly one that makes sense."""
        among = otherwise if otherwise and (not likely or slip(self.rng, 0.1)) else likely
        return self.rng.choice(among) if among else None

    def wait(self, minutes: int) -> None:
        self.crew.now += timedelta(minutes=minutes)

    def expect(self, holds: bool, sentence: str) -> None:
        if not holds:
            raise Broken(sentence)

    # One step after the other

    def go(self, steps: int) -> None:
        try:
            while self.steps < steps:
                self.step()
        except Exception as error:
            last = "\n".join(self.told[-12:])
            error.add_note(f"Seed {self.seed}, step {self.steps}. The last acts:\n{last}")
            raise

    def step(self) -> None:
        self._look_around()
        attempt = self._choose()
        if attempt is None:
            return
        self.steps += 1
        if slip(self.rng, 0.02):
            self.wait(45)
        person = self._who(attempt)
        self.told.append(f"{self.crew.now:%H:%M} {self.crew.named[person.pk]} {attempt.words}")
        if may(person, attempt.needs):
            self._try(attempt, person)
        else:
            self._knock(attempt, person)

    def _look_around(self) -> None:
        if self.visit:
            self.planned, self.stages = planned_operations(self.visit.pk), stages(self.visit.pk)
            self.is_closed = value("SELECT closed_at FROM visits_visit WHERE id = %s", self.visit.pk) is not None

    def _choose(self) -> Attempt | None:
        if self.visit is None:
            return moving.receive(self)
        is_useful = self.rng.random() < 0.75
        self.rng.care = 4 if is_useful else 0.8
        acts = GONE if self.is_closed else {act: 1 for act, is_there in USEFUL.items() if is_there(self)}
        acts = acts if is_useful and acts else OTHER
        return self.rng.choices(list(acts), list(acts.values()))[0](self)

    def _who(self, attempt: Attempt) -> Person:
        if slip(self.rng, 0.2):
            return self.rng.choice(list(self.crew.everybody.values()))
        return attempt.by or self.rng.choice(self.crew.who_may(attempt.needs))

    def _knock(self, attempt: Attempt, person: Person) -> None:
        """At the very address of the act: whoever may not is sent away before anything is looked at."""
        name, *arguments = attempt.door
        request = RequestFactory().post(reverse(name, args=arguments))
        request.user = person
        self.watch.begin()
        try:
            resolve(request.path).func(request, *arguments)
        except (PermissionDenied, Http404):
            self.sent_away += 1
        else:
            raise Broken("somebody who may not was let in")
        self.expect(not self.watch.touched(), f"sent away, yet rows were touched: {self.watch.touched()}")

    def _try(self, attempt: Attempt, person: Person) -> None:
        before, was_closed = self.planned if self.visit else [], self.visit is not None and self.is_closed
        self.watch.begin()
        try:
            attempt.do(by=person, at=self.crew.later())
        except REFUSALS as refused:
            self.refused += 1
            self.told[-1] += f" -- refused: {refused}"
            self.expect(not self.watch.touched(), f"refused, yet rows were touched: {self.watch.touched()}")
            return
        self.done += 1
        touched = self.watch.touched()
        if attempt.looks:
            self.expect(not touched, f"looking touched {touched}")
            return
        self._check_events(touched)
        tables = {table for table, _ in touched}
        for sentence in broken(tables, before, self.desk):
            raise Broken(sentence)
        if "release_release" in tables and not was_closed:
            for sentence in released(self.desk):
                raise Broken(f"released, yet: {sentence}")

    def _check_events(self, touched: set[tuple[str, str]]) -> None:
        told = self.watch.told()
        self.expect(bool(told), "done without an event")
        for table, key in sorted(touched):
            if table not in LEDGER:
                self.expect(self.watch.as_told(table, key) in told, f"no event about {table} {key}")
