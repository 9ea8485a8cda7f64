"""An engine in the shop, by way of the services; and quick ways along its traveler. Every figure is invented."""

from datetime import datetime, timedelta
from itertools import count

from engines.catalogue.data import PackData
from engines.catalogue.queries import data_of
from engines.catalogue.services import approve_pack
from engines.inspection.models import Discrepancy, WorkAsked
from engines.inspection.services import Asked, ask_customer, enter_reading
from engines.inspection.services.reading import Given
from engines.inspection.standing import Kind
from engines.release.services import advance
from engines.traveler.models import Authorised, Operation
from engines.traveler.services import accept, enter, open_visit, sign
from engines.traveler.services.signing import sha256_of
from engines.traveler.work import shown_text, work_on
from engines.visits.models import Visit, VisitArea
from engines.visits.queries import areas, visible_visits
from engines.visits.services import Identity, tag_part
from measurements.limits.models import Condition
from measurements.readings.models import Reading
from shopfloor.people.models import Person, Role
from tests.making_authorisations import entrust, entrust_each
from tests.making_packs import make_checked
from tests.making_people import AT, make_customer, make_person

_serial = count(1001)
WORK, HOLD_POINTS, DATA_APPROVAL = Authorised.WORK, Authorised.HOLD_POINTS, Authorised.DATA_APPROVAL


class Shop:
    """A shop with one person for each trade and approved data of the small model."""

    def __init__(self, data: PackData | None = None) -> None:
        self.manager, self.mechanic = make_person(Role.MANAGER), make_person(Role.MECHANIC)
        self.inspector, self.second = make_person(Role.INSPECTOR), make_person(Role.INSPECTOR)
        self.trusted = {self.mechanic, self.inspector, self.second}
        entrust_each(
            {self.mechanic: [WORK], self.inspector: [WORK, HOLD_POINTS, DATA_APPROVAL], self.second: [WORK, HOLD_POINTS]},
            by=self.manager,
        )
        self.customer = make_customer()
        self.pack = approve_pack(pack=make_checked(self.manager, self.inspector, data), by=self.inspector, at=AT)
        self.now = AT

    def trust(self, *persons: Person) -> None:
        """Authorise those who are not yet for all work at operations, and for accepting hold points."""
        if new := set(persons) - self.trusted:
            entrust(*new, whats=[WORK, HOLD_POINTS], by=self.manager)
            self.trusted |= new

    def hire(self, *roles: Role) -> Person:
        """Somebody more who is authorised as the others are."""
        person = make_person(*roles or [Role.MECHANIC])
        self.trust(person)
        return person

    def later(self) -> datetime:
        """Every act takes a minute, so that nothing happens at the same moment."""
        self.now += timedelta(minutes=1)
        return self.now

    def receive(self, reasons: tuple[str, ...] = ("time",), **given: object) -> Visit:
        received = {
            "pack": self.pack,
            "serial": f"T2-{next(_serial)}",
            "customer": self.customer,
            "scope": "overhaul",
            "reasons": reasons,
            "bench": "1",
        }
        visit = open_visit(**received | given, by=self.mechanic, at=self.later())
        return visible_visits(self.manager).get(pk=visit.pk)

    def area(self, visit: Visit, code: str) -> VisitArea:
        return areas().get(visit=visit, code=code)

    def operation(self, visit: Visit, code: str) -> Operation:
        return Operation.objects.select_related("area__visit").get(area__visit=visit, code=code)

    def tag(self, visit: Visit, line: str, place: str, mark: str = "", tray: str = "") -> None:
        identity = Identity(serial=mark or f"{line}-{place}", mark="")
        tray = tray or f"tray-{visit.number}"
        tag_part(
            visit=visit, line=line, place=place, identity=identity, tray=tray, as_found="worn", by=self.mechanic, at=self.later()
        )

    def tag_all(self, visit: Visit, *lines: str) -> None:
        for line in lines or ("crankshaft", "case-half", "cylinder", "piston"):
            for place in self._places(line):
                self.tag(visit, line, place)

    def read(self, visit: Visit, row: str, place: str, *values: str, **given: object) -> Reading:
        planes_and_directions = [
            (plane, direction)
            for each in [self._row(row)]
            for plane in each["planes"] or [""]
            for direction in each["directions"] or [""]
        ]
        values = values * len(planes_and_directions) if len(values) == 1 else values
        at = self.later()
        how = {"gauge": None, "condition": Condition.AS_RECEIVED, "set_up": self._row(row)["set_up"], "sequence": 0} | given
        reason = how.pop("correction_reason", "")
        corrects = how.pop("corrects", None)
        return enter_reading(
            visit=visit,
            row=row,
            place=place,
            given=Given(
                points=[(*point, value) for point, value in zip(planes_and_directions, values, strict=True)], unit="in", **how
            ),
            corrects=corrects,
            correction_reason=reason,
            taken_at=at,
            by=self.mechanic,
            at=at,
        )

    def enter(self, visit: Visit, code: str, **given: object) -> None:
        enter(operation=self.operation(visit, code), given=given, by=self.mechanic, at=self.later())

    def sign(self, visit: Visit, code: str, by: Person | None = None) -> Operation:
        operation = self.operation(visit, code)
        self.trust(*[by] if by else [])
        return sign(operation=operation, seen_sha256=self.seen(visit, code), by=by or self.mechanic, at=self.later())

    def accept(self, visit: Visit, code: str, by: Person | None = None) -> Operation:
        operation = self.operation(visit, code)
        self.trust(*[by] if by else [])
        return accept(operation=operation, seen_sha256=self.seen(visit, code), by=by or self.inspector, at=self.later())

    def seen(self, visit: Visit, code: str) -> str:
        operation = self.operation(visit, code)
        return sha256_of(shown_text(operation, work_on(operation.area.visit, operation)))

    def advance(self, visit: Visit, code: str) -> VisitArea:
        area = self.area(visit, code)
        return advance(area=area, before=area.stage, by=self.mechanic, at=self.later())

    def ask(self, found: Discrepancy, kind: Kind = Kind.REWORK, **given: object) -> WorkAsked:
        """The customer is asked about work on a discrepancy."""
        proposed = {"words": "bore it out", "parts": "2 ring set\n1 pin", "hours": "6.5", "price": "1250.00", "currency": "EUR"}
        return ask_customer(discrepancy=found, asked=Asked(kind=kind, **proposed | given), by=self.inspector, at=self.later())

    def owner(self, visit: Visit) -> Person:
        """A person of the customer whose engine it is."""
        return make_person(Role.CUSTOMER, customer=visit.customer)

    def to_assembly(self, visit: Visit, code: str = "case") -> VisitArea:
        """Through every stage before, by the services; the data must ask for nothing there (`empty_case`)."""
        area = self.area(visit, code)
        while area.stage != "assembly":
            if area.stage == "teardown":
                self.tag_all(visit, *(line.line for line in data_of(self.pack).lines if line.area == code))
            area = self.advance(visit, code)
        return area

    def _places(self, line: str) -> tuple[str, ...]:
        return data_of(self.pack).line_by_code[line].places

    def _row(self, row: str) -> dict:
        return next(each for each in data_of(self.pack).limits if each["row"] == row)
