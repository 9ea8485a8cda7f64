"""A tiny engine that can be released, brought to its release quickly through the services. Every figure is invented."""

from dataclasses import replace
from datetime import date
from typing import Any

from engines.catalogue.data import Area, Operation, PackData
from engines.release.checking import text_to_sign
from engines.release.models import Release
from engines.release.services import amend, release
from engines.release.services.releasing import sha256_of
from engines.release.statement import Given
from engines.traveler.models import Authorised
from engines.traveler.models import Operation as Planned
from engines.traveler.services import authorise
from engines.visits.models import Visit
from engines.visits.queries import visible_visits
from shopfloor.people.models import Person
from tests.making_packs import page, small_pack
from tests.making_people import AT
from tests.making_visits import Shop

STAGES = {"case": ("receiving", "teardown", "cleaning", "inspection", "repair", "assembly")}
STAGES["engine"] = ("close-up", "test", "final inspection", "release")
ACTS = [("case", stage) for stage in ("teardown", "cleaning", "inspection", "assembly")] + [("engine", "test")]
DAY = date(2026, 3, 2)


def operation(area: str, stage: str) -> Operation:
    return Operation(
        code=f"{stage}-{area}".replace(" ", "-"),
        area=area,
        stage=stage,
        kind="strip-and-tag" if stage == "teardown" else "sign-off",
        title=f"{stage.capitalize()} of the {area}",
        names=("crankshaft",) if stage == "teardown" else (),
        source=replace(page("7-1"), document="T2-90 invented route") if area == "engine" else page("3-1"),
    )


def release_pack(without: tuple[str, ...] = (), **changes: Any) -> PackData:
    """One area of one part, and the whole engine; an operation for each act of an overhaul but in the stages left out."""
    whole = small_pack()
    fields: dict[str, Any] = {
        "areas": (whole.areas[0], Area(code="engine", name="Whole engine", source=page("7-1"))),
        "lines": (whole.lines[0],),
        "operations": tuple(operation(area, stage) for area, stage in ACTS if stage not in without),
        "revision": "2",
        **dict.fromkeys(("limits", "pairings", "renewed_sets", "cautions"), ()),
    }
    return small_pack(**fields | changes)


class ReleasingShop(Shop):
    """A shop whose inspector is authorised and certificated to release."""

    def __init__(self, data: PackData | None = None) -> None:
        super().__init__(data or release_pack())
        self.inspector.certificate_kind, self.inspector.certificate_number = "repairman", "INV 4711"
        self.inspector.save()
        self.authorised = self.authorise(self.inspector)

    def authorise(self, person: Person, **given: object):
        granted = {"what": Authorised.RELEASE, "covers": (), "valid_from": DAY, "valid_until": None, "training": "engine course"}
        return authorise(person=person, **granted | given, by=self.manager, at=AT)

    def to_release(self, stop: str = "", **received: object) -> Visit:
        """Every operation signed and every area at its end, as far as the stage to stop at, which is left as it begins."""
        visit = self.receive(**received)
        self.tag(visit, "crankshaft", "engine", mark=f"CR-{visit.number}")
        for area, stages in STAGES.items():
            for stage in stages:
                if stage == stop:
                    return visit
                self.sign_all(visit, area, stage)
                if stage != stages[-1]:
                    self.advance(visit, area)
        return visit

    def sign_all(self, visit: Visit, area: str, stage: str) -> None:
        for each in Planned.objects.filter(area__visit=visit, area__code=area, stage=stage):
            self.sign(visit, each.code)

    def given(self, **changes: object) -> Given:
        filled = {"status": "overhauled", "description": "Overhauled as the data say.", "completed_on": DAY}
        return Given(**filled | {"directives": {"T2-SB-1": "complied with at this visit"}} | changes)

    def release(self, visit: Visit, by: Person | None = None, seen: str = "", **changes: object) -> Release:
        by, given = by or self.inspector, self.given(**changes)
        visit = visible_visits(self.manager).get(pk=visit.pk)
        seen = seen or sha256_of(text_to_sign(visit, given, Person.objects.get(pk=by.pk), DAY))
        return release(visit=visit, given=given, seen_sha256=seen, by=by, at=self.later())

    def amend(self, earlier: Release, by: Person | None = None, **changes: object) -> Release:
        by, given = by or self.inspector, self.given(**{"reason": "a document was left out"} | changes)
        seen = sha256_of(text_to_sign(earlier.visit, given, Person.objects.get(pk=by.pk), DAY, earlier))
        return amend(release=earlier, given=given, seen_sha256=seen, by=by, at=self.later())
