"""A tiny engine model of two cylinders, as data and as an approved pack. Every figure is invented."""

from dataclasses import replace
from functools import partial
from typing import Any

from engines.catalogue.data import (
    ENGINE,
    Area,
    Caution,
    Directive,
    Line,
    Operation,
    PackData,
    Pairing,
    RenewedSet,
    RunCheck,
    RunLimit,
    RunStep,
    Source,
)
from engines.catalogue.models import Pack
from engines.catalogue.services import add_pack, approve_pack, check_pages
from engines.traveler.models import Authorised
from shopfloor.people.models import Person
from tests.making_authorisations import entrust
from tests.making_people import AT

LABEL = "invented data: not for any real engine"
MANUAL = ("T2-90 invented manual", "3")
UNDER = "0.010 under"


def page(number: str) -> Source:
    document, revision = MANUAL
    return Source(document=document, revision=revision, page=f"page {number}")


def limit(row: str, part: str, characteristic: str, at: str, **fields: Any) -> dict[str, Any]:
    """Every field of a stored limit row, blank unless given; the four limits as texts."""
    blank = dict.fromkeys(_TEXTS, "")
    lists: dict[str, list[str]] = {name: [] for name in _LISTS}
    given = {"row": row, "part": part, "characteristic": characteristic, "unit": "in"}
    source = {"document": MANUAL[0], "document_revision": MANUAL[1], "page": f"page {at}"}
    return {**blank, **lists, **_PLAIN, **given, **source, **fields}


_TEXTS = (
    *("row", "size_class", "serial_from", "serial_to", "part", "characteristic", "unit"),
    *("new_min", "new_max", "service_min", "service_max"),
    *("alt_unit", "alt_new_min", "alt_new_max", "alt_service_min", "alt_service_max"),
    *("rule", "outer_row", "inner_row", "from_row", "quantity", "set_up"),
)
_LISTS = ("places", "outer_planes", "inner_planes", "planes", "directions")
_PLAIN = {"worn": "new", "basis": "absolute", "decimals": None, "condition": "as received", "required": True}
_MAINS, _CYLINDERS = ["main 1", "main 2"], ["cylinder 1", "cylinder 2"]


def _areas() -> tuple[Area, ...]:
    return (
        Area(code="case", name="Case and crankshaft", source=page("1-1")),
        Area(code="cylinders", name="Cylinders", source=page("1-1")),
    )


def _lines() -> tuple[Line, ...]:
    return (
        Line(
            line="crankshaft",
            part_number="T2-100",
            name="Crankshaft",
            area="case",
            places=("engine",),
            tracking="serial",
            source=page("2-1"),
        ),
        Line(line="case-half", part_number="T2-101", name="Case", area="case", places=("case",), source=page("2-1")),
        Line(
            line="gasket",
            part_number="T2-190",
            name="Gasket",
            area="case",
            places=("case joint",),
            tracking="none",
            renew=True,
            source=page("2-1"),
        ),
        Line(
            line="cylinder", part_number="T2-200", name="Cylinder", area="cylinders", places=tuple(_CYLINDERS), source=page("2-2")
        ),
        Line(line="piston", part_number="T2-201", name="Piston", area="cylinders", places=tuple(_CYLINDERS), source=page("2-2")),
    )


def _operations() -> tuple[Operation, ...]:
    case, cylinders = partial(Operation, area="case"), partial(Operation, area="cylinders")
    return (
        case(
            code="receive-case",
            stage="receiving",
            kind="sign-off",
            title="Identity and papers",
            words="Compare the data plate with the order.",
            source=page("3-1"),
        ),
        case(
            code="tag-case",
            stage="teardown",
            kind="strip-and-tag",
            title="Strip and tag the case",
            names=("crankshaft", "case-half"),
            after=("receive-case",),
            source=page("3-2"),
        ),
        case(
            code="clean-case",
            stage="cleaning",
            kind="sign-off",
            title="Clean the case and crankshaft",
            after=("tag-case",),
            source=page("3-2"),
        ),
        case(
            code="look-crankshaft",
            stage="inspection",
            kind="visual-finding",
            title="Look the crankshaft over",
            names=("crankshaft",),
            after=("clean-case",),
            hold_point=True,
            criterion="No nick, score or corrosion on a journal.",
            source=page("4-1"),
        ),
        case(
            code="flange-runout",
            stage="inspection",
            kind="go-no-go",
            title="Flange after a propeller strike",
            names=("crankshaft",),
            after=("clean-case",),
            reasons=("propeller strike",),
            criterion="The flange plate seats all round.",
            source=page("4-1"),
        ),
        case(
            code="read-mains",
            stage="inspection",
            kind="reading",
            title="Read journals and bearing bores",
            names=("crank-main", "bearing-bore"),
            after=("look-crankshaft",),
            source=page("4-2"),
        ),
        case(
            code="fit-mains",
            stage="inspection",
            kind="fit-check",
            title="Clearance of the main bearings",
            names=("main-clearance",),
            after=("read-mains",),
            source=page("4-2"),
        ),
        case(
            code="repair-case",
            stage="repair",
            kind="sign-off",
            title="Repairs of the case are done",
            after=("fit-mains",),
            source=page("5-1"),
        ),
        cylinders(
            code="receive-cylinders",
            stage="receiving",
            kind="sign-off",
            title="Cylinders are complete",
            source=page("3-1"),
        ),
        cylinders(
            code="tag-cylinders",
            stage="teardown",
            kind="strip-and-tag",
            title="Strip and tag the cylinders",
            names=("cylinder", "piston"),
            after=("receive-cylinders", "receive-case"),
            caution="keep-pairs",
            source=page("3-2"),
        ),
        cylinders(
            code="clean-cylinders",
            stage="cleaning",
            kind="sign-off",
            title="Clean cylinders and pistons",
            after=("tag-cylinders",),
            source=page("3-2"),
        ),
        cylinders(
            code="look-barrels",
            stage="inspection",
            kind="visual-finding",
            title="Look the barrels over",
            names=("cylinder",),
            after=("clean-cylinders",),
            hold_point=True,
            criterion="No crack, no score that a fingernail catches.",
            source=page("4-3"),
        ),
        cylinders(
            code="gauge-flanges",
            stage="inspection",
            kind="go-no-go",
            title="Flatness of the cylinder flanges",
            names=("cylinder",),
            after=("clean-cylinders",),
            scopes=("overhaul",),
            criterion="The thin leaf does not enter.",
            source=page("4-3"),
        ),
        cylinders(
            code="read-barrels",
            stage="inspection",
            kind="reading",
            title="Read barrels and pistons",
            names=("barrel", "skirt-diameter"),
            after=("clean-cylinders",),
            source=page("4-4"),
        ),
        cylinders(
            code="fit-pistons",
            stage="inspection",
            kind="fit-check",
            title="Piston in barrel",
            names=("piston-in-barrel",),
            after=("read-barrels",),
            source=page("4-4"),
        ),
        cylinders(
            code="repair-cylinders",
            stage="repair",
            kind="sign-off",
            title="Repairs of the cylinders are done",
            after=("fit-pistons", "look-barrels"),
            source=page("5-1"),
        ),
    )


def _limits() -> tuple[dict[str, Any], ...]:
    journal = partial(
        limit,
        "crank-main",
        "crankshaft",
        "main journal diameter",
        "4-2",
        places=_MAINS,
        planes=["front", "rear"],
        directions=["0", "90"],
    )
    oor = partial(
        limit,
        "crank-main-oor",
        "crankshaft",
        "main journal out-of-round",
        "4-2",
        places=_MAINS,
        from_row="crank-main",
        quantity="out-of-round",
        new_max="0.0005",
        service_max="0.0015",
    )
    bore = partial(limit, "bearing-bore", "case-half", "main bearing bore", "4-2", places=_MAINS)
    return (
        journal(new_min="2.1240", new_max="2.1250", service_min="2.1230"),
        journal(size_class=UNDER, new_min="2.1140", new_max="2.1150", service_min="2.1130"),
        oor(),
        oor(size_class=UNDER),
        bore(new_min="2.1265", new_max="2.1275", service_max="2.1285"),
        bore(size_class=UNDER, new_min="2.1165", new_max="2.1175", service_max="2.1185"),
        limit(
            "main-clearance",
            "crankshaft",
            "main bearing clearance",
            "4-2",
            places=_MAINS,
            outer_row="bearing-bore",
            inner_row="crank-main",
            new_min="0.0015",
            new_max="0.0035",
            service_max="0.0050",
        ),
        limit(
            "barrel",
            "cylinder",
            "barrel diameter",
            "4-4",
            places=_CYLINDERS,
            planes=["head", "skirt"],
            directions=["0", "90"],
            new_min="4.3700",
            new_max="4.3760",
            service_max="4.3800",
        ),
        limit(
            "barrel-choke",
            "cylinder",
            "choke of the barrel",
            "4-4",
            places=_CYLINDERS,
            from_row="barrel",
            quantity="taper",
            planes=["head", "skirt"],
            new_min="0.0030",
            new_max="0.0060",
            service_min="0.0010",
            service_max="0.0080",
        ),
        limit(
            "skirt-diameter",
            "piston",
            "skirt diameter",
            "4-4",
            places=_CYLINDERS,
            new_min="4.3630",
            new_max="4.3640",
            service_min="4.3610",
        ),
        limit(
            "piston-in-barrel",
            "piston",
            "piston clearance at the skirt",
            "4-4",
            places=_CYLINDERS,
            outer_row="barrel",
            inner_row="skirt-diameter",
            outer_planes=["skirt"],
            new_min="0.0110",
            new_max="0.0130",
            service_max="0.0170",
        ),
    )


def small_pack(**changes: Any) -> PackData:
    """The whole model as plain values, fields changed as asked. Nothing is written."""
    pack = PackData(
        model="T2-90",
        model_name="T2-90 of two cylinders",
        maker="Invented Engines",
        layout="opposed",
        cylinders=2,
        revision="1",
        label=LABEL,
        areas=_areas(),
        lines=_lines(),
        operations=_operations(),
        limits=_limits(),
        pairings=(
            Pairing(fit="main-clearance", source=page("4-2")),
            Pairing(fit="main-clearance", outer_class=UNDER, inner_class=UNDER, source=page("4-2")),
            Pairing(fit="piston-in-barrel", source=page("4-4")),
        ),
        renewed_sets=(
            RenewedSet(code="case-joint", name="Case and its gasket", lines=("case-half", "gasket"), source=page("5-1")),
        ),
        cautions=(Caution(code="keep-pairs", area="cylinders", words="Keep each piston with its cylinder.", source=page("3-2")),),
        directives=(Directive(number="T2-SB-1", title="Look for cracks at the flange", source=page("6-1")),),
    )
    return replace(pack, **changes)


def running_pack(**changes: Any) -> PackData:
    """The same with the whole engine as an area, and a run on the stand: oil first, then warming, then full power."""
    pack = small_pack()
    whole = partial(Operation, area=ENGINE)
    running = replace(
        pack,
        areas=(*pack.areas, Area(code=ENGINE, name="Whole engine", source=page("1-1"))),
        operations=(
            *pack.operations,
            whole(code="close", stage="close-up", kind="sign-off", title="The areas are joined", source=page("8-1")),
            whole(
                code="look-filter",
                stage="final inspection",
                kind="visual-finding",
                title="Filter opened after the run",
                criterion="No metal.",
                finds="metal found",
                source=page("8-3"),
            ),
            whole(
                code="flush-lines",
                stage="final inspection",
                kind="sign-off",
                title="Flush the oil lines",
                reasons=("metal found",),
                source=page("8-3"),
            ),
        ),
        cautions=(
            *pack.cautions,
            Caution(code="arc", area=ENGINE, words="Nobody stands in the arc of the club.", source=page("8-2")),
        ),
        run_steps=(
            RunStep(code="pre-oil", title="Oil to every bearing", minutes="3", source=page("8-2")),
            RunStep(code="warm", title="Warm up", rpm="1000", minutes="10", caution="arc", source=page("8-2")),
            RunStep(code="full", title="Full power", rpm="2500", minutes="5", caution="arc", source=page("8-2")),
        ),
        run_limits=(
            RunLimit(channel="oil pressure", unit="psi", low="25", high="90", abort_low="10", source=page("8-2")),
            RunLimit(step="full", channel="oil temperature", unit="°F", high="210", abort_high="240", source=page("8-2")),
            RunLimit(step="full", channel="corrected power", unit="hp", low="85.5", source=page("8-2")),
        ),
        run_checks=(RunCheck(code="leaks", step="warm", words="No leak at any joint.", source=page("8-2")),),
        run_reopens=("cylinders",),
        rated_power="90",
        rated_rpm="2500",
        run_correction="classic 460/520",
    )
    return replace(running, **changes)


def with_run(pack: PackData) -> PackData:
    """The same with an area of the whole engine, and a schedule for the stand: pre-oil, warm, full power, magnetos, stopped."""
    engine = Area(code="engine", name="Whole engine", source=page("1-1"))
    at = partial(RunLimit, source=page("7-2"))
    closing = partial(Operation, area="engine", kind="sign-off", source=page("7-1"))
    return replace(
        pack,
        areas=(*pack.areas, engine),
        operations=(
            *pack.operations,
            closing(code="close", stage="close-up", title="The engine is closed up"),
            closing(code="rig", stage="test", title="Rigged on the stand", after=("close",)),
        ),
        cautions=(
            *pack.cautions,
            Caution(code="club", area="engine", words="Nobody stands in line with the test club.", source=page("7-1")),
        ),
        run_steps=(
            RunStep(code="pre-oil", title="Pre-oil", minutes="2", source=page("7-2")),
            RunStep(code="warm", title="Warm up", rpm="1200", minutes="5", source=page("7-2")),
            RunStep(code="full", title="Full power", rpm="2500", minutes="10", source=page("7-2")),
            RunStep(code="magnetos", title="Magnetos", rpm="1800", minutes="0.5", source=page("7-2")),
            RunStep(code="stopped", title="Stopped, looked over", minutes="1", source=page("7-2")),
        ),
        run_limits=(
            at(channel="oil pressure", unit="psi", abort_low="10"),
            at(step="pre-oil", channel="oil pressure", unit="psi", low="20"),
            at(step="warm", channel="oil temperature", unit="°F", low="100", high="200"),
            at(step="full", channel="oil pressure", unit="psi", low="50", high="90"),
            at(step="full", channel="cylinder temperature", unit="°F", high="450", abort_high="500"),
            at(step="full", channel="corrected power", unit="hp", low="88.0"),
            at(step="magnetos", channel="ignition drop left", unit="rpm", low="10", high="125"),
            at(step="magnetos", channel="ignition drop right", unit="rpm", low="10", high="125"),
            at(step="magnetos", channel="ignition drop difference", unit="rpm", high="50"),
            at(channel="oil consumption", unit="qt/h", high="1.0"),
        ),
        run_checks=(
            RunCheck(code="grounded", step="magnetos", words="The engine dies when both switches are off", source=page("7-3")),
            RunCheck(code="no-leak", step="stopped", words="No leak at any joint", source=page("7-3")),
        ),
        run_reopens=("cylinders",),
        rated_power="90",
        rated_rpm="2500",
        run_correction="classic 460/519",
    )


def make_draft(by_loader: Person, data: PackData | None = None) -> Pack:
    return add_pack(data=data or small_pack(), by=by_loader, at=AT)


def make_checked(by_loader: Person, by_checker: Person, data: PackData | None = None) -> Pack:
    """A draft whose every page another person checked."""
    data = data or small_pack()
    pack = make_draft(by_loader, data)
    check_pages(pack=pack, pages=data.sources, by=by_checker, at=AT)
    return pack


def make_pack(by_loader: Person, by_approver: Person, data: PackData | None = None) -> Pack:
    """The pack in force: loaded by one person, every page checked and approved by another, who is authorised for it."""
    entrust(by_approver, whats=[Authorised.DATA_APPROVAL], by=by_loader)
    return approve_pack(pack=make_checked(by_loader, by_approver, data), by=by_approver, at=AT)


def with_operations(pack: PackData, *operations: Operation) -> PackData:
    """The same pack with more work in its route, after what it has."""
    return replace(pack, operations=(*pack.operations, *operations))


def empty_case(*operations: Operation) -> PackData:
    """The small model as one area with nothing to read and only the given work, so that `Shop.to_assembly` gets there at once."""
    pack = small_pack()
    fewer: dict[str, Any] = dict.fromkeys(("limits", "pairings", "renewed_sets", "cautions", "directives", "operations"), ())
    return with_operations(replace(pack, areas=pack.areas[:1], lines=_lines()[:2], **fewer), *operations)
