"""One walk: a seed, a small engine, and one act after the other, each watched."""

from datetime import timedelta

from django.core.exceptions import PermissionDenied
from django.http import Http404
from django.test import RequestFactory
from django.urls import resolve, reverse

from engines.benches.refusals import REFUSED
from engines.testbench.errors import StandRefused
from shopfloor.people.models import Person
from shopfloor.people.permissions import may
from tests.walking.at_hand import AtHand
from tests.walking.attempt import Attempt
from tests.walking.choosing import choose
from tests.walking.crew import Crew
from tests.walking.dice import Dice, slip
from tests.walking.rules import broken, released
from tests.walking.watch import LEDGER, Watch, forget

REFUSALS = (*REFUSED, StandRefused)
TOLD = 12


class Broken(AssertionError):
    """Something is so that may never be so."""


class Walk(AtHand):
    def __init__(self, crew: Crew, watch: Watch, seed: int) -> None:
        super().__init__()
        self.crew, self.watch, self.seed, self.rng = crew, watch, seed, Dice(seed)
        self.told: list[str] = []
        self.steps = self.done = self.refused = self.sent_away = 0
        forget()

    def go(self, steps: int) -> None:
        """Whatever breaks tells the seed, the step, and the acts that led to it."""
        try:
            while self.steps < steps:
                self.step()
        except Exception as error:
            error.add_note("\n".join([f"Seed {self.seed}, step {self.steps}. The last acts:", *self.told[-TOLD:]]))
            raise

    def step(self) -> None:
        self.look_around()
        attempt = choose(self)
        if attempt is None:
            return
        self.steps += 1
        self.wait(45 if slip(self.rng, 0.02) else 0)
        person = self._who(attempt)
        self.told.append(f"{self.crew.now:%H:%M} {self.crew.named[person.pk]} {attempt.words}")
        (self._try if may(person, attempt.needs) else self._knock)(attempt, person)

    def wait(self, minutes: int) -> None:
        self.crew.now += timedelta(minutes=minutes)

    def expect(self, holds: bool, sentence: str) -> None:
        if not holds:
            raise Broken(sentence)

    def _who(self, attempt: Attempt) -> Person:
        if slip(self.rng, 0.3):
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
        self._check_untouched("sent away")

    def _try(self, attempt: Attempt, person: Person) -> None:
        before, was_closed = self.planned, self.is_closed
        self.watch.begin()
        try:
            attempt.do(by=person, at=self.crew.later())
        except REFUSALS as refused:
            self.refused += 1
            self.told[-1] += f" -- refused: {refused}"
            self._check_untouched("refused")
            return
        self.done += 1
        if attempt.looks:
            self._check_untouched("looked at")
        else:
            self._check_done(before, was_closed)

    def _check_untouched(self, what: str) -> None:
        touched = self.watch.touched()
        self.expect(not touched, f"{what}, yet rows were touched: {touched}")

    def _check_done(self, before: list, was_closed: bool) -> None:
        forget()
        touched, told = self.watch.touched(), self.watch.told()
        self.expect(bool(told), "done without an event")
        for table, key in sorted(touched):
            if table not in LEDGER:
                self.expect(self.watch.as_told(table, key) in told, f"no event about {table} {key}")
        tables = {table for table, _ in touched}
        for sentence in broken(tables, before, self.desk):
            raise Broken(sentence)
        if "release_release" in tables and not was_closed:
            for sentence in released(self.desk):
                raise Broken(f"released, yet: {sentence}")
