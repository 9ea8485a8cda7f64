"""A joint of four on the empty case of the small engine, a wrench for it, and quick ways along it. Every figure is invented."""

from dataclasses import replace
from functools import partial
from typing import Any

from django.template.loader import render_to_string
from django.urls import reverse

from engines.catalogue.data import Line, Operation, PackData
from engines.steps.registry import step_of
from engines.traveler.services import enter
from engines.visits.models import Visit
from measurements.gauges.models import Gauge
from shopfloor.documents.kinds import document_kind
from shopfloor.people.models import Person, Role
from tests.making_gauges import calibrate, make_gauge
from tests.making_packs import empty_case, page, small_pack, with_operations
from tests.making_visits import Shop

# Where the area stands when the engine comes in, so that no test of a joint walks through the stages first.
at_case = partial(Operation, area="case", stage="receiving", source=page("7-1"))
BOLT = Line(
    line="rod-bolt",
    part_number="T2-301",
    name="Rod bolt",
    area="case",
    places=("upper", "lower"),
    tracking="none",
    source=page("2-3"),
)
CROSS = ["1", "3", "2", "4"]
TORQUE = {
    "circle": "4",
    "unit": "lbf·in",
    "passes": [{"low": "70", "high": "80", "order": CROSS}, {"low": "140", "high": "160", "order": CROSS}],
    "condition": "wet",
    "lubricant": "engine oil",
    "over": "replace the stud and its nut",
}
ONE_PASS = [{"low": "140", "high": "160", "order": CROSS}]


def torqued(**changes: Any) -> Operation:
    """The torque group `bolts`; a detail changed to None is left out."""
    details = {name: value for name, value in (TORQUE | changes).items() if value is not None}
    return at_case(code="bolts", kind="torque-group", title="Case bolts", details=details)


def with_bolts(pack: PackData) -> PackData:
    return replace(pack, lines=(*pack.lines, BOLT))


def wrong_with(*operations: Operation) -> list[str]:
    """What the kind of the last of them finds wrong with its details, beside the others."""
    return list(
        step_of(operations[-1].kind).check_details(operations[-1], with_bolts(with_operations(small_pack(), *operations)))
    )


class Joint:
    """A visit whose case can be worked on at once with these operations, and a wrench from 50 to 250 lbf·in."""

    def __init__(self, *operations: Operation, code: str = "") -> None:
        self.shop = Shop(with_bolts(empty_case(*operations)))
        self.visit: Visit = self.shop.receive()
        self.code = code or operations[-1].code
        self.other = self.shop.hire(Role.MECHANIC)
        self.wrench = self.gauge("W-1", "torque wrench", "lbf·in", "50", "250")

    def gauge(self, number: str, description: str, unit: str, least: str, greatest: str, **calibration: Any) -> Gauge:
        gauge = make_gauge(
            self.shop.manager,
            number=number,
            description=description,
            unit=unit,
            range_min=least,
            range_max=greatest,
            resolution="0.0001",
        )
        calibrate(gauge, self.shop.manager, expanded_u="0.0001", **calibration)
        return gauge

    def enter(self, by: Person | None = None, code: str = "", **given: Any) -> dict[str, Any]:
        operation = self.shop.operation(self.visit, code or self.code)
        self.shop.trust(*[by] if by else [])
        made = enter(operation=operation, given=given, by=by or self.shop.mechanic, at=self.shop.later())
        return made.content if made else {}

    def ready(self, by: Person | None = None, **given: Any) -> dict[str, Any]:
        return self.enter(by, **{"wrench": "W-1", "threads": "wet", "slackened": True} | given)

    def turn(self, fastener: str, torque: str, by: Person | None = None, **given: Any) -> dict[str, Any]:
        """The same torque twice is said to be read again."""
        return self.enter(by, **{"fastener": fastener, "torque": torque, "read_again": True} | given)

    def all_turned(self, by: Person | None = None, torques: tuple[str, ...] = ("75", "150")) -> None:
        for torque in torques:
            self.ready(by)
            for fastener in CROSS:
                self.turn(fastener, torque, by)

    def sign(self, by: Person | None = None, code: str = "") -> Any:
        """As whoever stands there: what is missing depends on no viewer."""
        return self.shop.sign(self.visit, code or self.code, by)

    def page(self, client: Any, by: Person | None = None, code: str = "") -> str:
        client.force_login(by or self.shop.mechanic)
        found = client.get(reverse("benches:operation", args=[self.shop.operation(self.visit, code or self.code).pk]))
        assert found.status_code == 200
        return str(found.content.decode())

    def paper(self) -> str:
        paper = document_kind("visit-traveler")
        return render_to_string(paper.template, {**paper.context(str(self.visit.pk)), "kind": paper, "document": None})
