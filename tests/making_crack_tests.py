"""A crack test of the small engine: what its data ask, instruments for it, and an errand that answers each question.

At least 1000 uW/cm2 of ultraviolet and at most 2 fc of white light at the part, a bath of 0.1 to 0.4 mL in 100 mL, at most 3 G
left behind: ASTM E1444, from memory. That a check which fails casts doubt on all examined since the last good one: ASTM E1444,
from memory. Sheets, hours, criteria and instruments are invented.
"""

from io import BytesIO
from typing import Any

from engines.steps.registry import step_of
from engines.traveler.services import enter
from engines.traveler.work import work_on
from tests.making_gauges import calibrated, make_gauge
from tests.making_steps_s3 import Errand
from tests.making_visits import Shop
from tests.permission_rows.benches import picture

KIND = "crack-test"
DETAILS: dict[str, Any] = {
    "method": "magnetic particle",
    "technique": {"sheet": "MT-7", "revision": "C"},
    "level": "2",
    "bath": {"what": "wet fluorescent bath", "hours": "8", "unit": "mL in 100 mL", "least": "0.1", "greatest": "0.4"},
    "checks": [
        {"check": "ultraviolet at the part", "unit": "uW/cm2", "least": "1000", "hours": "8"},
        {"check": "white light at the part", "unit": "fc", "greatest": "2", "hours": "8"},
        {"check": "field at the part", "unit": "G", "least": "30", "greatest": "60"},
    ],
    "criteria": [{"sort": "crack", "greatest": "0", "unit": "in"}, {"sort": "inclusion", "greatest": "0.125", "unit": "in"}],
    "residual": {"greatest": "3", "unit": "G"},
    "cleaned": "Bath rinsed off, every oil hole blown through.",
}
PENETRANT: dict[str, Any] = {
    **{name: DETAILS[name] for name in ("technique", "level", "criteria", "cleaned")},
    "method": "penetrant",
    "bath": {"what": "penetrant and developer", "hours": "8"},
    "checks": [DETAILS["checks"][0]],
}
METERS = {"UV-1": ("uW/cm2", "0", "5000"), "WL-1": ("fc", "0", "20"), "HM-1": ("G", "-100", "100"), "FI-1": ("mT", "-2", "2")}
SHEET, BATH = {"answer": "C"}, {"batch": "B-12", "concentration": "0.2"}
LAMP, WHITE = {"instrument": "UV-1", "shown": "1200"}, {"instrument": "WL-1", "shown": "1.5"}
FIELD, LEFT = {"instrument": "HM-1", "shown": "45"}, {"instrument": "HM-1", "shown": "1.5"}
SEEN, NOTHING = {"answer": "an indication"}, {"answer": "no indication, or no further one"}
CLEANED = {"answer": "cleaned"}
SETUP = (SHEET, BATH, LAMP, WHITE)
ALL = (*SETUP, FIELD, NOTHING, LEFT, CLEANED)


def indication(**changed: Any) -> dict[str, Any]:
    given = {"place": "journal 2, 90 degrees", "sort": "inclusion", "length": "0.05", "relevant": "relevant", "reason": "sharp"}
    file = BytesIO(picture())
    file.name = "indication.jpg"
    return {**given, "photo": file, **changed}


def make_meters(shop: Shop) -> None:
    for number, (unit, least, greatest) in METERS.items():
        made = make_gauge(shop.manager, number=number, unit=unit, range_min=least, range_max=greatest, description="meter")
        calibrated(made, shop.manager)


class CrackErrand(Errand):
    """With the meters of the register; `tell` answers what is asked now, one after the other."""

    def __init__(self, **changed: Any) -> None:
        fields = {"names": ("crankshaft",), **changed.pop("fields", {})}
        super().__init__(KIND, {**changed.pop("details", DETAILS), **changed}, **fields)
        make_meters(self.shop)

    def tell(self, *answers: dict[str, Any], by: Any = None) -> list[dict[str, Any]]:
        return [tell(self.shop, self.operation, answer, by=by) for answer in answers]


def tell(shop: Shop, operation: Any, answer: dict[str, Any], by: Any = None) -> dict[str, Any]:
    """What the tablet sends for the question that is asked at this moment; its entry."""
    by, at = by or shop.mechanic, shop.later()
    form = step_of(KIND).form(work_on(operation.area.visit, operation, at, by))
    asked = form.initial["asked"] if form else ""
    made = enter(operation=operation, given={"asked": asked, **answer}, by=by, at=at)
    assert made is not None
    return made.content
