"""A small engine for walks: three areas whose operations wait for one another, a kind of nearly everything. All invented."""

from functools import partial
from typing import Any

from engines.catalogue.data import ENGINE, Area, Line, Operation, PackData, RunCheck, RunLimit, RunStep
from tests.making_packs import limit, page, small_pack

PISTONS = ("cylinder 1", "cylinder 2")
ORDER = ["1", "3", "2"]
LOW, HIGH = "140", "160"
BOLTS = {
    "circle": "3",
    "unit": "lbf·in",
    "passes": [{"low": LOW, "high": HIGH, "order": ORDER}],
    "condition": "dry",
    "over": "replace the stud",
    "minutes": "30",
    "seated_by": "seat",
}
COUNT = {"closures": [{"number": "C1", "place": "oil inlet"}], "tools": [{"tool": "mirror", "count": "1"}], "rags": "2"}
LOCKS = [{"joint": "cylinder bolts", "method": "wire"}]
# Of the operations that are about parts: the line, and its places.
LINES = {
    **dict.fromkeys(("strip", "journal", "look", "install"), ("crankshaft", "engine")),
    **dict.fromkeys(("strip-pistons", "skirts", "home"), ("piston", *PISTONS)),
}
SPOTS = {"case": [("crankshaft", "engine")], "cylinders": [("piston", place) for place in PISTONS], "engine": []}
AREA_OF = {"crankshaft": "case", "piston": "cylinders"}
ROW_OF = {"crankshaft": "journal", "piston": "skirt"}
case = partial(Operation, area="case", source=page("3-1"))
cylinders = partial(Operation, area="cylinders", source=page("3-2"))
whole = partial(Operation, area=ENGINE, source=page("8-1"))
CASE = (
    case(code="receive", stage="receiving", kind="sign-off", title="Identity and papers"),
    case(code="strip", stage="teardown", kind="strip-and-tag", title="Strip the case", names=("crankshaft",), after=("receive",)),
    case(code="clean", stage="cleaning", kind="sign-off", title="Clean the case", after=("strip",)),
    case(code="journal", stage="inspection", kind="reading", title="Read the journal", names=("journal",), hold_point=True),
    case(
        code="look",
        stage="inspection",
        kind="visual-finding",
        title="Look the crankshaft over",
        names=("crankshaft",),
        after=("clean", "journal"),
        criterion="No nick.",
    ),
    case(code="install", stage="assembly", kind="install-item", title="Crankshaft in", names=("crankshaft",), after=("look",)),
    case(
        code="seat",
        stage="assembly",
        kind="hand-seated-joint",
        title="Halves seated",
        after=("install",),
        details={"joint": "case halves"},
    ),
    case(code="bolts", stage="assembly", kind="torque-group", title="Case bolts", after=("seat",), details=BOLTS),
    case(
        code="wire",
        stage="assembly",
        kind="locking",
        title="Case bolts wired",
        after=("bolts",),
        details={"joint": "bolts", "method": "wire"},
        hold_point=True,
    ),
    case(code="count", stage="assembly", kind="closure-count", title="Closed", after=("bolts",), details=COUNT),
)
CYLINDERS = (
    cylinders(
        code="strip-pistons",
        stage="teardown",
        kind="strip-and-tag",
        title="Strip the pistons",
        names=("piston",),
        after=("receive",),
    ),
    cylinders(code="clean-pistons", stage="cleaning", kind="sign-off", title="Clean the pistons", after=("strip-pistons",)),
    cylinders(code="skirts", stage="inspection", kind="reading", title="Read the skirts", names=("skirt",), after=("clean",)),
    cylinders(
        code="home",
        stage="assembly",
        kind="keyed-identity",
        title="Pistons go home",
        names=("piston",),
        after=("bolts", "skirts"),
        hold_point=True,
    ),
)
WHOLE = (
    whole(code="close", stage="close-up", kind="sign-off", title="Closed up", details={"locks": LOCKS}, hold_point=True),
    whole(code="rig", stage="test", kind="sign-off", title="Rigged on the stand", after=("close",)),
    whole(
        code="filter",
        stage="final inspection",
        kind="visual-finding",
        title="Filter opened",
        criterion="No metal.",
        finds="metal found",
    ),
    whole(code="flush", stage="final inspection", kind="sign-off", title="Lines flushed", reasons=("metal found",)),
)


def walked_pack(**changes: Any) -> PackData:
    small = small_pack()
    fields: dict[str, Any] = {
        "areas": (*small.areas, Area(code=ENGINE, name="Whole engine", source=page("1-1"))),
        "lines": (
            small.lines[0],
            Line(line="piston", part_number="T2-201", name="Piston", area="cylinders", places=PISTONS, source=page("2-2")),
        ),
        "operations": (*CASE, *CYLINDERS, *WHOLE),
        "limits": (
            limit("journal", "crankshaft", "journal diameter", "4-2", new_min="2.1240", new_max="2.1250", service_min="2.1230"),
            limit("skirt", "piston", "skirt diameter", "4-4", new_min="4.3630", new_max="4.3640", service_min="4.3610"),
        ),
        "run_steps": (RunStep(code="warm", title="Warm up", rpm="1000", minutes="5", source=page("8-2")),),
        "run_limits": (RunLimit(step="warm", channel="oil pressure", unit="psi", low="25", abort_low="10", source=page("8-2")),),
        "run_checks": (RunCheck(code="leaks", step="warm", words="No leak.", source=page("8-2")),),
        "run_reopens": ("cylinders",),
        **dict.fromkeys(("pairings", "renewed_sets", "cautions"), ()),
    }
    return small_pack(**fields | changes)


AFTER = {each.code: each.after for each in (*CASE, *CYLINDERS, *WHOLE)}
