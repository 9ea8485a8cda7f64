"""An engine on the stand, by way of the services, and a run of it step by step. Every figure is invented."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from itertools import pairwise

from engines.catalogue.data import AREA_STAGES, ENGINE, PackData
from engines.testbench import services
from engines.testbench.findings import findings_text, sha256_of
from engines.testbench.models import Run
from engines.testbench.queries import RunNow, run_now, runs
from engines.testbench.services import Typed
from engines.visits.models import Visit, VisitArea
from engines.visits.services import move_area
from tests.making_packs import small_pack, with_run
from tests.making_visits import Shop

AIR = {"air temperature": "59", "air pressure": "29.92", "humidity": "0"}
SPEEDS = {"speed on both magnetos": "1800", "speed on left magneto": "1720", "speed on right magneto": "1700"}
GOOD: Mapping[str, Mapping[str, str]] = {
    "pre-oil": {"oil pressure": "30"},
    "warm": {"oil pressure": "40", "oil temperature": "120"},
    "full": {"oil pressure": "70", "cylinder temperature": "400", "power": "88.4", **AIR},
    "magnetos": {"oil pressure": "45", **SPEEDS},
    "stopped": {},
}
OIL = {"oil put in": "8", "oil left": "7.9"}
MINUTES = {"pre-oil": 2, "warm": 5, "full": 10, "magnetos": 1, "stopped": 1}


class Stand:
    """A shop whose one engine stands in test, and its run once begun."""

    def __init__(self, data: PackData | None = None, *, begun: bool = True, rigged: bool = True, moved: bool = False) -> None:
        self.shop = Shop(data or with_run(small_pack()))
        self.by = self.shop.mechanic
        self.visit: Visit = self.shop.receive()
        if rigged:
            (self.move if moved else self.rig)()
        if begun:
            self.begin()

    @property
    def now(self) -> datetime:
        return self.shop.now

    def rig(self) -> None:
        """Every area to the end of its stages and the engine into test, past the services for speed."""
        VisitArea.objects.filter(visit=self.visit).exclude(code=ENGINE).update(stage="assembly")
        VisitArea.objects.filter(visit=self.visit, code=ENGINE).update(stage="test")

    def move(self) -> None:
        """The same by moves that the ledger knows of, past the gates."""
        for code, stages in (("case", AREA_STAGES), ("cylinders", AREA_STAGES), (ENGINE, ("close-up", "test"))):
            for before, after in pairwise(stages):
                area = self.shop.area(self.visit, code)
                move_area(area=area, before=before, after=after, by=self.by, at=self.shop.later())

    def begin(self) -> Run:
        self.run = services.begin_run(visit=self.visit, by=self.by, at=self.shop.later())
        return self.run

    def wait(self, minutes: float) -> None:
        self.shop.now += timedelta(minutes=minutes)

    def begin_step(self, step: str) -> None:
        services.begin_step(run=self.run, step=step, by=self.by, at=self.shop.now)

    def end_step(self, step: str) -> None:
        services.end_step(run=self.run, step=step, by=self.by, at=self.shop.now)

    def read(self, step: str, **values: str) -> None:
        """Channels with `_` for a blank; a channel of the cylinders is read at both."""
        self.read_all(step, {channel.replace("_", " "): value for channel, value in values.items()})

    def read_all(self, step: str, values: Mapping[str, str]) -> None:
        typed = [
            Typed(channel, value, cylinder)
            for channel, value in values.items()
            for cylinder in ((1, 2) if channel.startswith(("cylinder", "exhaust")) else (0,))
        ]
        services.read(run=self.run, step=step, typed=typed, by=self.by, at=self.shop.now)

    def answer(self, code: str, yes: bool = True, words: str = "") -> None:
        services.answer(run=self.run, code=code, yes=yes, words=words, by=self.by, at=self.shop.now)

    def hold(self, step: str, *, minutes: float | None = None, but: str = "", **other: str) -> None:
        """A whole step with good readings, some left out or other."""
        self.begin_step(step)
        self.wait(MINUTES[step] if minutes is None else minutes)
        other = {channel.replace("_", " "): value for channel, value in other.items()}
        values = {channel: value for channel, value in {**GOOD[step], **other}.items() if channel != but}
        if values:
            self.read_all(step, values)
        if step == "magnetos" and but != "grounded":
            self.answer("grounded")
        if step == "stopped" and but != "no-leak":
            self.answer("no-leak")
        self.end_step(step)

    def hold_all(self, *steps: str, but: str = "", **other: str) -> None:
        for step in steps or tuple(MINUTES):
            mine = {each: value for each, value in other.items() if each.replace("_", " ") in GOOD[step]}
            self.hold(step, but=but, **mine)
        self.read_all("", {channel: value for channel, value in OIL.items() if channel != but})

    def seen(self) -> str:
        return sha256_of(findings_text(self.standing().standing))

    def standing(self) -> RunNow:
        return run_now(runs().get(pk=self.run.pk), self.shop.now)

    def end(self) -> Run:
        self.run = services.end_run(run=self.run, seen_sha256=self.seen(), by=self.by, at=self.shop.now)
        return self.run

    def passed(self) -> "Stand":
        self.hold_all()
        self.end()
        return self
