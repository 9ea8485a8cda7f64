"""A small invented engine that lies on the bench, stripped, read and ready to go together: one cylinder and one gear train."""

from dataclasses import replace
from datetime import timedelta

from django.utils import timezone

from engines.catalogue.data import Area, Line, Operation
from engines.catalogue.queries import data_of
from engines.catalogue.services import add_pack, approve_pack, check_pages
from engines.scenario.telling.crew import Crew
from engines.traveler.services import open_visit
from shopfloor.people.models import Customer, Person
from tests.making_packs import page, small_pack

SERIAL, CYLINDER, GEARS = "G1-0007", "Cylinder", "Gear train"
STAR = ["1", "3", "2", "4"]


def _line(line, name, area, *, tracking="mark"):
    number = f"G1-{len(line)}"
    return Line(line=line, part_number=number, name=name, area=area, places=(line,), tracking=tracking, source=page("2-1"))


def _does(code, area, kind, title, *, stage="assembly", **more):
    return Operation(code=code, area=area, stage=stage, kind=kind, title=title, source=page("7-1"), **more)


def bench_pack():
    cylinder = ("cylinder", "piston", "piston-pin")
    return replace(
        small_pack(model="G1-20", model_name="Bench engine"),
        areas=(Area(code="cylinder", name=CYLINDER, source=page("1-1")), Area(code="gears", name=GEARS, source=page("1-1"))),
        lines=(
            _line("cylinder", "Cylinder", "cylinder", tracking="serial"),
            _line("piston", "Piston", "cylinder"),
            _line("piston-pin", "Piston pin", "cylinder"),
            _line("crank-gear", "Crankshaft gear", "gears"),
            _line("cam-gear", "Camshaft gear", "gears"),
        ),
        operations=(
            _does("strip", "cylinder", "strip-and-tag", "Cylinder off", stage="teardown", names=cylinder),
            _does(
                "rings",
                "cylinder",
                "angular-separation",
                "Ring gaps apart",
                names=("piston",),
                details={"openings": ["top ring", "second ring", "oil ring"], "least": "90", "from": "clockwise from the front"},
            ),
            _does(
                "home",
                "cylinder",
                "keyed-identity",
                "Piston, pin and cylinder home",
                names=cylinder,
                after=("rings",),
                hold_point=True,
                details={"way_up": "the stamped number forward"},
            ),
            _does(
                "hold-down",
                "cylinder",
                "torque-group",
                "Hold-down",
                after=("home",),
                details={
                    "circle": "4",
                    "unit": "lbf-in",
                    "condition": "wet",
                    "lubricant": "engine oil",
                    "passes": [{"low": "60", "high": "70", "order": STAR}, {"low": "140", "high": "150", "order": STAR}],
                    "over": "nut and stud are renewed",
                    "set_wrench": "yes",
                },
            ),
            _does(
                "wire",
                "cylinder",
                "locking",
                "Hold-down wired",
                after=("hold-down",),
                details={"joint": "hold-down", "method": "wire"},
            ),
            _does("strip-gears", "gears", "strip-and-tag", "Gears off", stage="teardown", names=("crank-gear", "cam-gear")),
            _does("gears", "gears", "install-item", "Gears on", names=("crank-gear", "cam-gear")),
            _does(
                "marks",
                "gears",
                "index-marks",
                "Gears on their marks",
                after=("gears",),
                hold_point=True,
                details={
                    "before": "the piston of cylinder 1 stands at the top of compression",
                    "pairs": [
                        {"mark": "the dot of the crankshaft gear", "meets": "the two dots of the idler"},
                        {"mark": "the notch of the idler", "meets": "the notch of the camshaft gear"},
                    ],
                    "no_matter": ["the letter on the idler"],
                },
            ),
            _does(
                "backlash",
                "gears",
                "adjust-and-select",
                "Backlash",
                after=("marks",),
                details={
                    "what": "backlash",
                    "unit": "in",
                    "least": "0.0040",
                    "greatest": "0.0100",
                    "places": ["idler"],
                    "positions": ["at the mark", "half a turn on"],
                    "shims": [{"thickness": "0.005", "count": "2"}, {"thickness": "0.010", "count": "1"}],
                    "closed_by_thickness": "1",
                },
            ),
        ),
        limits=(),
        cautions=(),
        directives=(),
        pairings=(),
        renewed_sets=(),
    )


def lay_on_the_bench():
    """Its data in force, and the engine as far as assembly; in the demo's own shop."""
    at = timezone.now() - timedelta(days=2)
    manager, inspector, mechanic = (Person.objects.get(username=name) for name in ("manager", "inspector", "mechanic2"))
    pack = add_pack(data=bench_pack(), by=manager, at=at)
    check_pages(pack=pack, pages=data_of(pack).sources, by=inspector, at=at)
    pack = approve_pack(pack=pack, by=inspector, at=at)
    visit = open_visit(
        pack=pack,
        serial=SERIAL,
        customer=Customer.objects.order_by("name").first(),
        scope="overhaul",
        reasons=("time",),
        hours_since_new="2000.0",
        hours_since_overhaul="",
        promised_on=None,
        bench="bench 12",
        notes={},
        by=mechanic,
        at=at,
    )
    Crew(visit, at, timezone.now()).bring("assembly", "cylinder", "gears")
