"""The people of the invented shop at work on one engine."""

from collections.abc import Collection, Mapping
from contextlib import suppress
from datetime import datetime, timedelta
from itertools import chain, groupby, takewhile
from typing import Any

from django.db.models import QuerySet
from django.utils.timezone import localdate

from engines.catalogue.data import ENGINE
from engines.catalogue.queries import data_of
from engines.inspection.models import Discrepancy
from engines.inspection.requirements import Rows, rows_for
from engines.inspection.services import Readout, ask_customer, decide, enter_readings, raise_discrepancy, sign_second
from engines.inspection.services.asking import Asked
from engines.inspection.services.deciding import Data
from engines.inspection.services.reading import Given as Read
from engines.inspection.standing import Kind, State
from engines.release import statement
from engines.release.checking import STANDINGS, text_to_sign
from engines.release.errors import Held
from engines.release.models import Release
from engines.release.queries import blockers_of, situation_of
from engines.release.services import advance, release
from engines.scenario.telling.answers import answers
from engines.scenario.telling.bench import BY_ANOTHER, Bench, Given
from engines.scenario.telling.stand import StandRun
from engines.scenario.telling.values import gauge_for, good_points
from engines.steps.registry import step_of
from engines.steps.work import Spot, Work
from engines.traveler.models import Operation
from engines.traveler.queries import operations_of
from engines.traveler.services import accept, enter_all, sign
from engines.traveler.services.signing import sha256_of
from engines.traveler.work import reasons_to_wait, shown_text, work_on
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import visible_visits
from engines.visits.route import data_for
from engines.visits.services import move_to_bench
from measurements.gauges.models import Gauge
from measurements.gauges.queries import gauges, listed
from measurements.readings.models import Reading
from shopfloor.people.models import Person

MINUTES = 7
ALL = ("case", "crank", "cylinders", "gears", "accessories")
HELD = ("76", "75", "77", "76", "74", "76")
LEFT_UNREAD = "left unread"
SIGNED_ONLY = ("fit-check",)


class NothingMoves(RuntimeError):
    """The story cannot go on: the engine data ask for something that the crew does not do."""


class Crew:
    """Works on one visit from `begun` on; every act takes a few minutes. `odd` gives values that are not good."""

    def __init__(self, visit: Visit, begun: datetime, until: datetime, odd: Mapping[tuple[str, str], str] | None = None) -> None:
        self.visit, self.now, self.until = visit, begun, until
        self.odd = odd or {}
        self.mechanics = [Person.objects.get(username=name) for name in ("mechanic1", "mechanic2")]
        self.inspector, self.manager = (Person.objects.get(username=name) for name in ("inspector", "manager"))
        self.gauges: list[Gauge] = [each.gauge for each in listed(gauges(), until.date()) if each.standing.calibration]
        self.turn = 0

    def later(self) -> datetime:
        self.now = min(self.now + timedelta(minutes=MINUTES), self.until)
        return self.now

    def bring(self, stage: str, *codes: str) -> None:
        """Work on areas side by side, as far as each can go, until all of them stand in `stage`."""
        going = [code for code in codes if self._area(code).stage != stage]
        while going:
            before = self.turn
            for code in going:
                shown = self.work_on(code)
                if not self._is_worked(shown):
                    continue
                with suppress(Held):
                    advance(area=shown, before=shown.stage, by=self.mechanics[0], at=self.later())
                    self.turn += 1
            if self.turn == before:
                raise NothingMoves([each.sentence for code in going for each in blockers_of(situation_of(self._area(code)))])
            going = [code for code in going if self._area(code).stage != stage]

    def work_on(self, code: str, *, but: int = 0, until: Collection[str] = ()) -> VisitArea:
        """Every operation of the area's stage that can be done now, all but the last few or up to one of these; the area."""
        shown = self._area(code)
        here = [(each.code, each.is_complete) for each in self._operations_in(shown)]
        asked = [name for name, _ in takewhile(lambda each: each[0] not in until, here[: len(here) - but])]
        if all(is_complete for name, is_complete in here if name in asked):
            return shown
        after = {name: data_for(self.visit).operation_by_code[name].after for name in asked}
        wanted = operations_of(self.visit).select_related(None).filter(code__in={*asked, *chain(*after.values())})
        every = {each.code: each for each in wanted.select_related("area")}
        for name in asked:
            if not every[name].is_complete and not reasons_to_wait(every[name], every, after[name]):
                every[name] = self.carry_out(every[name])
        return shown

    def carry_out(self, operation: Operation) -> Operation:
        by = self.mechanics[self.turn % 2]
        self.turn += 1
        work = self._entered(operation, by)
        operation = sign(operation=operation, seen_sha256=_seen(operation, work), by=by, at=self.later())
        if operation.hold_point:
            operation = accept(operation=operation, seen_sha256=_seen(operation, work), by=self.inspector, at=self.later())
        return operation

    def read(self, row: str, place: str, value: str = "") -> Reading:
        """One characteristic at one place, with a good value where none is given."""
        return self._keep([self._readout(rows_for(self.visit), row, place, value)])[0]

    def _keep(self, reads: list[Readout]) -> list[Reading]:
        return enter_readings(visit=self.visit, reads=reads, by=self.mechanics[self.turn % 2], at=self.now)

    def _readout(self, rows: Rows, row: str, place: str, value: str) -> Readout:
        limits = rows.any(row)
        points = [(plane, direction, value or good) for plane, direction, good in good_points(limits, self.turn)]
        self.turn += 1
        given = Read(
            points=points,
            unit=limits.unit,
            gauge=gauge_for(self.gauges, limits, [each for _, _, each in points]),
            condition=limits.condition,
            set_up=limits.set_up,
            sequence=self.turn,
        )
        return Readout(row, place, given, taken_at=self.later())

    def raise_in_words(self, area: str, line: str, place: str, words: str) -> Discrepancy:
        by = self.mechanics[0]
        return raise_discrepancy(visit=self.visit, area=area, line=line, place=place, words=words, by=by, at=self.later())

    def decide(self, found: Discrepancy, kind: Kind, words: str, *, mate: str = "", seconded: bool = True) -> None:
        row = found.reading.row if found.reading else None
        data = (
            Data(row.document, row.document_revision, row.page)
            if row
            else Data("F6-240 overhaul data (invented)", "1", "page 5-1")
        )
        made = decide(discrepancy=found, kind=kind, data=data, words=words, mate=mate, by=self.inspector, at=self.later())
        if kind == Kind.CONCESSION and seconded:
            sign_second(disposition=made, by=self.manager, at=self.later())

    def decide_all(self, area: str, kind: Kind, words: str) -> None:
        for found in Discrepancy.objects.filter(visit=self.visit, area=area, dispositions__isnull=True).order_by("number"):
            fit = found.reading.row if found.reading and found.reading.row.is_fit else None
            self.decide(found, kind, words, mate=fit.inner_row if fit else "")

    def close_up(self) -> None:
        """Every area to its end and the engine to the stand, with all that is signed before a run."""
        self.bring("assembly", *ALL)
        self.assemble()
        self.bring("test", ENGINE)
        self.work_on(ENGINE)

    def assemble(self, *, until: Collection[str] = ()) -> None:
        """Every area as far as the others let it go, or up to one of these operations."""
        before = -1
        while before != self.turn:
            before = self.turn
            for code in ALL:
                self.work_on(code, until=until)

    def break_off(self, code: str, *, after: int) -> None:
        """An operation that is asked through is left in the middle, after some of its answers."""
        operation = operations_of(self.visit).get(code=code)
        given = self._given(work_on(self.visit, operation))[:after]
        enter_all(operation=operation, given=given, by=self.mechanics[0], at=self.later())

    def run(self, *steps: str, odd: Mapping[str, str] | None = None) -> StandRun:
        """A run as far as these steps; with none named the whole of it."""
        stand = StandRun(self.visit, self.mechanics[0], self.later(), odd)
        stand.hold(*steps)
        self.now = stand.now
        return stand

    def release(self, description: str, recommendations: str = "") -> Release:
        self.bring("release", ENGINE)
        self.work_on(ENGINE)
        numbers = [each.number for each in data_of(self.visit.pack).directives]
        standings = dict.fromkeys(numbers, STANDINGS[0])
        given = statement.Given("overhauled", description, localdate(self.now), recommendations, standings)
        visit, signer = visible_visits(self.inspector).get(pk=self.visit.pk), self.inspector
        signer.refresh_from_db()
        seen = sha256_of(text_to_sign(visit, given, signer, localdate(self.until)))
        return release(visit=visit, given=given, seen_sha256=seen, by=signer, at=self.later())

    def ask(self, found: Discrepancy, asked: Asked) -> None:
        ask_customer(discrepancy=found, asked=asked, by=self.inspector, at=self.later())

    def move_to(self, area: str, bench: str) -> None:
        move_to_bench(area=self._area(area), bench=bench, by=self.manager, at=self.later())

    def _is_worked(self, area: VisitArea) -> bool:
        return all(each.is_complete for each in self._operations_in(area))

    def _operations_in(self, area: VisitArea) -> QuerySet[Operation]:
        """Of the stage in which the area stands."""
        return operations_of(self.visit).select_related(None).filter(area=area, stage=area.stage)

    def _area(self, code: str) -> VisitArea:
        return self.visit.areas.get(code=code)

    def _entered(self, operation: Operation, by: Person) -> Work:
        """Everything that the operation asks is entered; how it stands then."""
        work = work_on(self.visit, operation)
        if operation.kind == "reading":
            self._read_all(work)
        elif operation.kind in SIGNED_ONLY or step_of(operation.kind).form(work) is None:
            return work
        else:
            self._enter(operation, work, by)
        return work_on(self.visit, operation)

    def _enter(self, operation: Operation, work: Work, by: Person) -> None:
        for is_another, given in groupby(self._given(work), key=lambda each: BY_ANOTHER in each):
            hand = self.inspector if is_another else by
            enter_all(operation=operation, given=list(given), by=hand, at=self.later())

    def _given(self, work: Work) -> list[Given]:
        number = self.visit.number
        asked = answers(work, Bench(self.gauges, localdate(self.now)))
        if asked is not None:
            return asked
        spots: list[Spot | None] = [] if work.operation.kind == "sign-off" else [*work.spots]
        if work.operation.kind == "compression":  # the cylinders are held against the orifice, so that is read before them
            spots.insert(0, None)
        return [{**_entry(work.operation.kind, work, spot, number), "spot": spot} for spot in spots or [None]]

    def _read_all(self, work: Work) -> None:
        now, names = work.now, work.operation.names
        missing = [each for each in now.rows.requirements if each.row in names and now.of(each).state == State.MISSING]
        values = [(each, self.odd.get(each.key, "")) for each in missing]
        if reads := [self._readout(now.rows, *each.key, value) for each, value in values if value != LEFT_UNREAD]:
            self._keep(reads)


def _seen(operation: Operation, work: Work) -> str:
    return sha256_of(shown_text(operation, work))


def _entry(kind: str, work: Work, spot: Spot | None, number: int) -> dict[str, Any]:
    match kind:
        case "strip-and-tag":
            line, place = spot or ("", "")
            found = f"{line[:4].upper()}-{number}{work.spots.index((line, place)) + 1:02}"
            identity = {"serial": found if work.line((line, place)).tracking == "serial" else "", "mark": found}
            return {**identity, "tray": f"{number}-{line}", "as_found": "oily, worn evenly", "absent": False}
        case "visual-finding":
            return {"verdict": "accepted", "words": "", "photo": None, "across": None, "down": None}
        case "go-no-go":
            return {"result": "go", "gauge": "SW-P1", "words": ""}
        case "keyed-identity":
            item = work.now.tagged[spot].item if spot else None
            return {"identity": item.identity if item else "", "way_up": True, "reason": ""}
        case "sign-off":
            return {"locked": [lock["joint"] for lock in work.operation.details["locks"]]}
        case "compression":
            held = "79" if spot is None else HELD[work.spots.index(spot) % len(HELD)]
            return {"reading": held, "condition": "hot", "tester": "SW-T1", "heard": "nowhere" if spot else ""}
        case _:
            renewed = spot is not None and (work.line(spot).renew or spot not in work.now.tagged)
            new = {"new_identity": f"LOT-{number}" if renewed else "", "evidence": f"demo-{number}" if renewed else ""}
            return {**new, "destroyed": "cut through, its halves in the scrap bin"} if kind == "renew-always" else new
