"""A whole visit in three roles: the data of a small invented engine come into force, it is received, stripped, measured, put
together, run on the stand, released; and its papers say what the records say."""

from dataclasses import replace
from datetime import date
from io import BytesIO

import pytest
from pypdf import PdfReader

from engines.catalogue.data import Operation, RunCheck, RunLimit, RunStep
from engines.scenario.passwords import DEMO_PASSWORD
from tests.browser.at_work import accept, choose, move_on, press, shown, sign, to_area, to_engine, to_operation
from tests.making_packs import limit, page, small_pack, with_run
from tests.pack_files import files_of, zip_of

pytestmark = [pytest.mark.browser, pytest.mark.sqlite, pytest.mark.timeout(300)]
SERIAL, CASE, ENGINE = "T2-0042", "Case and crankshaft", "Whole engine"


def tour_pack():
    """One part, an operation for every act of an overhaul, and a run of three steps that take no time."""
    whole = with_run(small_pack(model="T2-95", model_name="Tour engine"))

    def operation(code, stage, title, kind="sign-off", area="case", **more):
        return Operation(code=code, area=area, stage=stage, kind=kind, title=title, source=page("3-1"), **more)

    return replace(
        whole,
        areas=(whole.areas[0], whole.areas[-1]),
        lines=(whole.lines[0],),
        operations=(
            operation("papers", "receiving", "Papers read"),
            operation("strip", "teardown", "Strip and tag", "strip-and-tag", names=("crankshaft",)),
            operation("clean", "cleaning", "Clean and dry"),
            operation("main", "inspection", "Read the main journal", "reading", names=("journal",)),
            operation("look", "inspection", "Look it over", "visual-finding", criterion="No score.", hold_point=True),
            operation("install", "assembly", "Crankshaft in its case", "install-item", names=("crankshaft",)),
            operation(
                "home", "close-up", "The right crankshaft", "keyed-identity", "engine", names=("crankshaft",), hold_point=True
            ),
            operation(
                "locks", "close-up", "Locked", area="engine", details={"locks": [{"joint": "case bolts", "method": "wire"}]}
            ),
            operation("rig", "test", "Rigged on the stand", area="engine", after=("locks",)),
            operation(
                "filter",
                "final inspection",
                "Filter opened",
                "visual-finding",
                "engine",
                criterion="No metal.",
                finds="metal found",
            ),
            operation("crate", "final inspection", "Preserved and crated", area="engine", after=("filter",)),
        ),
        limits=(
            limit("journal", "crankshaft", "main journal diameter", "4-2", places=["main 1"], new_min="2.1240", new_max="2.1250"),
        ),
        run_steps=(
            RunStep(code="pre-oil", title="Pre-oil", minutes="0", source=page("7-2")),
            RunStep(code="full", title="Full power", rpm="2500", minutes="0", source=page("7-2")),
            RunStep(code="stopped", title="Looked over", minutes="0", source=page("7-2")),
        ),
        run_limits=(
            RunLimit(step="full", channel="oil pressure", unit="psi", low="50", high="90", abort_low="20", source=page("7-2")),
            RunLimit(step="full", channel="corrected power", unit="hp", low="88.0", source=page("7-2")),
        ),
        run_checks=(RunCheck(code="no-leak", step="stopped", words="No leak at any joint", source=page("7-3")),),
        run_reopens=("case",),
        cautions=whole.cautions[-1:],
        directives=(),
        pairings=(),
        renewed_sets=(),
    )


def test_from_receiving_to_release_in_three_roles(at_a_tablet):
    manager, mechanic, inspector = (at_a_tablet(name) for name in ("manager", "mechanic1", "inspector"))
    put_data_into_force(manager, inspector)
    receive(mechanic)
    overhaul_the_case(mechanic, inspector)
    close_up(mechanic, inspector)
    run_it(mechanic)
    look_after_the_run(mechanic)
    to_engine(inspector, SERIAL)
    visit = inspector.url
    number = release(inspector)
    papers_say_so(inspector, visit, number)


def put_data_into_force(manager, inspector):
    manager.goto("/")
    manager.get_by_role("link", name="Engine data").first.click()
    manager.get_by_role("link", name="Load").first.click()
    pack = {"name": "t2-95.zip", "mimeType": "application/zip", "buffer": zip_of(files_of(tour_pack()))}
    manager.get_by_label("Zip of the pack").set_input_files(pack)
    press(manager, "Load pack")
    assert "T2-95, data revision 1" in shown(manager)
    inspector.goto(manager.url)
    for box in inspector.locator('input[name="page"]').all():
        box.check()
    press(inspector, "Pages ticked are checked")
    press(inspector, "Approve")
    inspector.get_by_text("by Inspector").first.wait_for()


def receive(mechanic):
    mechanic.goto("/board/")
    mechanic.get_by_role("link", name="Receive an engine").click()
    mechanic.get_by_role("link", name="T2-95").click()
    mechanic.get_by_label("Serial of the engine").fill(SERIAL)
    mechanic.get_by_label("Bench", exact=True).fill("bench 9")
    mechanic.get_by_label("Hours since new").fill("2400.0")
    mechanic.get_by_label("Customer").select_option("Lowfold Flying Club")
    mechanic.get_by_label("overhaul", exact=True).check()
    mechanic.get_by_label("time", exact=True).check()
    press(mechanic, "Receive the engine")
    assert SERIAL in shown(mechanic)


def overhaul_the_case(mechanic, inspector):
    signed(mechanic, CASE, "Papers read", "teardown")
    to_operation(mechanic, SERIAL, CASE, "Strip and tag")
    mechanic.get_by_label("Serial on the part").fill("CS-42")
    mechanic.get_by_label("Tray").fill("T2-1")
    mechanic.get_by_label("As found").fill("oily")
    press(mechanic, "Keep it")
    sign(mechanic)
    move_on(mechanic, SERIAL, CASE, "cleaning")
    signed(mechanic, CASE, "Clean and dry", "inspection")
    to_operation(mechanic, SERIAL, CASE, "Read the main journal")
    mechanic.get_by_role("link", name="Read it").click()
    mechanic.get_by_label("Value").fill("2.1246")
    choose(mechanic, "Gauge", "SW-10")
    for box in mechanic.get_by_role("checkbox").all():
        box.check()
    press(mechanic, "Keep the reading")
    assert "within new limits" in shown(mechanic)
    signed(mechanic, CASE, "Read the main journal")
    to_operation(mechanic, SERIAL, CASE, "Look it over")
    mechanic.get_by_label("accepted: meets the criterion", exact=True).check()
    press(mechanic, "Keep it")
    sign(mechanic)
    to_area(mechanic, SERIAL, CASE)
    assert mechanic.get_by_role("button", name="Move on to repair").is_disabled(), "the hold point is not accepted"
    to_operation(inspector, SERIAL, CASE, "Look it over")
    accept(inspector)
    move_on(mechanic, SERIAL, CASE, "repair")
    move_on(mechanic, SERIAL, CASE, "assembly")
    to_operation(mechanic, SERIAL, CASE, "Crankshaft in its case")
    press(mechanic, "Keep it")
    sign(mechanic)


def close_up(mechanic, inspector):
    to_operation(mechanic, SERIAL, ENGINE, "The right crankshaft")
    mechanic.get_by_label("Serial or mark that you read on the part").fill("CS-24")
    press(mechanic, "Keep it")
    assert "No Crankshaft of this engine is tagged “CS-24”." in shown(mechanic)
    mechanic.get_by_label("Serial or mark that you read on the part").fill("CS-42")
    press(mechanic, "Keep it")
    sign(mechanic)
    to_operation(inspector, SERIAL, ENGINE, "The right crankshaft")
    accept(inspector)
    to_operation(mechanic, SERIAL, ENGINE, "Locked")
    assert "case bolts: its lock is not noted" in shown(mechanic)
    mechanic.get_by_label("case bolts: wire").check()
    press(mechanic, "Keep it")
    sign(mechanic)
    move_on(mechanic, SERIAL, ENGINE, "test")
    signed(mechanic, ENGINE, "Rigged on the stand")


def run_it(mechanic):
    to_area(mechanic, SERIAL, ENGINE)
    mechanic.get_by_role("link", name="The engine was not run on the stand yet.").click()
    mechanic.get_by_label("The cautions were read out").check()
    press(mechanic, "Begin a run")
    press(mechanic, "Pre-oil")
    press(mechanic, "End this step")
    press(mechanic, "Full power")
    for label, value in {
        "Oil pressure": "70 psi",
        "Power": "89.1",
        "Air temperature": "59 °F",
        "Air pressure": "29.92",
        "Humidity": "0",
    }.items():
        mechanic.get_by_label(f"{label} (may be left blank)", exact=True).fill(value)
    press(mechanic, "Keep the readings")
    assert "89.1" in shown(mechanic)
    press(mechanic, "End this step")
    press(mechanic, "Looked over")
    mechanic.get_by_label("yes", exact=True).check()
    press(mechanic, "Answer")
    press(mechanic, "End this step")
    mechanic.get_by_label("Your password again").fill(DEMO_PASSWORD)
    press(mechanic, "End as passed")
    assert "passed" in shown(mechanic)
    move_on(mechanic, SERIAL, ENGINE, "final inspection")


def look_after_the_run(mechanic):
    to_operation(mechanic, SERIAL, ENGINE, "Filter opened")
    mechanic.get_by_label("accepted: meets the criterion", exact=True).check()
    press(mechanic, "Keep it")
    sign(mechanic)
    signed(mechanic, ENGINE, "Preserved and crated", "release")


def release(inspector):
    inspector.get_by_role("link", name="Release this engine").click()
    inspector.get_by_label("overhauled", exact=True).check()
    inspector.get_by_label("Description of the work").fill("Overhauled by the data of this visit.")
    inspector.get_by_label("Completed on").fill(date.today().isoformat())
    inspector.get_by_label("Open recommendations").fill("Change the oil after 25 hours.")
    press(inspector, "Show what I would sign")
    assert "repairman (invented)" in shown(inspector)
    inspector.get_by_label("Your password again").fill(DEMO_PASSWORD)
    press(inspector, "Sign, and release the engine")
    inspector.wait_for_url("**/releases/**")
    assert "Change the oil after 25 hours." in shown(inspector)
    return inspector.get_by_role("heading", level=2).first.inner_text().split()[1].strip(",")


def papers_say_so(inspector, visit, number):
    """The text of each paper, as a reader of the PDF finds it."""
    traveler, record, trace, logbook, stand = (
        paper_of(inspector, visit, name)
        for name in ("Traveler", "Build record", "Parts traceability report", "Logbook sheet", "Run sheet")
    )
    assert all(words in traveler for words in ("Read the main journal", "First mechanic", "CS-42", "SW-10", "case bolts (wire)"))
    assert all(words in record for words in ("2.1246 in", "within new limits", "2.1240", "2.1250"))
    assert all(words in trace for words in ("CS-42", "T2-100", "reused"))
    assert all(words in logbook for words in (SERIAL, "overhauled", "repairman (invented)", "SW-R-01", f"elease {number}"))
    assert "T2-90 invented manual, revision 3" in logbook
    assert "Change the oil after 25 hours." in logbook
    assert all(words in stand for words in ("passed", "89.1", "460/519"))


def signed(mechanic, area, title, then=""):
    to_operation(mechanic, SERIAL, area, title)
    sign(mechanic)
    if then:
        move_on(mechanic, SERIAL, area, then)


def paper_of(page, visit, name):
    page.goto(visit)
    press(page, name)
    page.get_by_role("link", name="Download").wait_for(timeout=60_000)
    with page.expect_download() as download:
        page.get_by_role("link", name="Download").click()
    reader = PdfReader(BytesIO(download.value.path().read_bytes()))
    return " ".join(" ".join(each.extract_text().split()) for each in reader.pages)
