"""A mechanic and an inspector put one cylinder and one gear train together on the pages: what is wrong is refused or void, and
what is right is signed by the one and, where the data ask for it, accepted by the other."""

from io import BytesIO

import pytest
from PIL import Image

from tests.browser.at_work import accept, choose, keep, shown, sign, tap, to_area, to_operation
from tests.browser.bench_engine import CYLINDER, GEARS, SERIAL, STAR

pytestmark = [pytest.mark.browser, pytest.mark.sqlite, pytest.mark.timeout(300)]


@pytest.fixture(scope="module")
def on_the_bench(product):
    told = product.manage("shell", "-c", "from tests.browser.bench_engine import lay_on_the_bench; lay_on_the_bench()")
    assert told.returncode == 0, told.stderr


@pytest.fixture
def hands(on_the_bench, at_a_tablet):
    return at_a_tablet("mechanic1"), at_a_tablet("inspector")


def test_a_cylinder_goes_together(hands):
    mechanic, inspector = hands
    ring_gaps(mechanic)
    numbered_parts_go_home(mechanic)
    to_operation(inspector, SERIAL, CYLINDER, "Piston, pin and cylinder home")
    accept(inspector)
    hold_down(mechanic)
    wired(mechanic)
    all_complete(inspector, CYLINDER)


def test_a_gear_train_goes_together(hands):
    mechanic, inspector = hands
    to_operation(mechanic, SERIAL, GEARS, "Gears on")
    for _ in range(2):
        keep(mechanic)
    sign(mechanic)
    marks(mechanic)
    to_operation(inspector, SERIAL, GEARS, "Gears on their marks")
    assert (
        "they meet" not in inspector.get_by_role("main").inner_text() or inspector.get_by_role("link", name="photo").is_visible()
    )
    accept(inspector)
    backlash(mechanic)
    all_complete(inspector, GEARS)


def ring_gaps(mechanic):
    to_operation(mechanic, SERIAL, CYLINDER, "Ring gaps apart")
    angles(mechanic, "10", "70", "200")
    assert "too close together" in shown(mechanic)
    assert not mechanic.get_by_role("button", name="Sign", exact=True).is_visible()
    angles(mechanic, "10", "130", "250")
    assert "far enough apart" in shown(mechanic)
    sign(mechanic)


def angles(mechanic, *degrees):
    for ring, angle in zip(("Top ring", "Second ring", "Oil ring"), degrees, strict=True):
        mechanic.get_by_label(f"{ring}, degrees").fill(angle)
    keep(mechanic)


def numbered_parts_go_home(mechanic):
    to_operation(mechanic, SERIAL, CYLINDER, "Piston, pin and cylinder home")
    mechanic.get_by_text("What was tagged where").click()
    numbers = mechanic.locator("details .stamp").all_inner_texts()
    assert len(numbers) == 3
    read_on_the_part(mechanic, "PI-99")
    assert "Read the part again, and compare its tag." in shown(mechanic)
    for number in numbers:
        read_on_the_part(mechanic, number)
        assert f"{number}, its own place" in shown(mechanic)
    sign(mechanic)
    assert mechanic.get_by_text("It waits for another authorised person to accept it.").is_visible()


def read_on_the_part(mechanic, number):
    mechanic.get_by_label("Serial or mark that you read on the part").fill(number)
    mechanic.get_by_label("The way up: the stamped number forward").check()
    keep(mechanic)


def hold_down(mechanic):
    to_operation(mechanic, SERIAL, CYLINDER, "Hold-down")
    ready(mechanic)
    tighten(mechanic, STAR[0], "65")
    tighten(mechanic, "4", "65")
    assert "Number 3 is next, not 4." in shown(mechanic)
    mechanic.get_by_label("It was done out of its order").check()
    tighten(mechanic, "4", "65")
    assert "Try 1 is void" in shown(mechanic)
    assert not mechanic.get_by_role("button", name="Sign", exact=True).is_visible()
    mechanic.get_by_label("Every fastener is slackened").check()
    for torque in ("65", "145"):
        ready(mechanic)
        for number in STAR:
            tighten(mechanic, number, torque)
    assert "Try 2" in shown(mechanic)
    sign(mechanic)


def ready(mechanic):
    choose(mechanic, "Wrench for pass", "SW-21")
    mechanic.get_by_label("The threads are").select_option("wet")
    keep(mechanic)


def tighten(mechanic, number, torque):
    tap(mechanic, number)
    mechanic.get_by_label("Torque that the wrench showed").fill(torque)
    keep(mechanic)


def wired(mechanic):
    to_operation(mechanic, SERIAL, CYLINDER, "Hold-down wired")
    for number, lies in [("1", "pulls towards loosening"), *((each, "pulls towards tightening") for each in "1234")]:
        tap(mechanic, number)
        choose(mechanic, "Its wire", lies)
        keep(mechanic)
    sign(mechanic)


def marks(mechanic):
    to_operation(mechanic, SERIAL, GEARS, "Gears on their marks")
    mechanic.get_by_label("Seen first: the piston of cylinder 1").check()
    for each in mechanic.get_by_label("they meet", exact=True).all():
        each.check()
    mechanic.get_by_label("Photo of the marks").set_input_files(
        {"name": "marks.png", "mimeType": "image/png", "buffer": picture()}
    )
    keep(mechanic)
    assert "the marks meet" in shown(mechanic)
    sign(mechanic)
    assert not mechanic.get_by_role("button", name="Accept this hold point").is_visible(), "a second person sees them"


def backlash(mechanic):
    to_operation(mechanic, SERIAL, GEARS, "Backlash")
    mechanic.get_by_label("What is fitted now").fill("0.005")
    keep(mechanic)
    read_at(mechanic, "0.0130", "0.0120")
    assert "computed from what the data permit: 0.010" in shown(mechanic)
    mechanic.get_by_label("What did you fit").fill("0.010")
    keep(mechanic)
    read_at(mechanic, "0.0080", "0.0070")
    sign(mechanic)


def read_at(mechanic, *read):
    for value in read:
        mechanic.get_by_label("Backlash, idler").fill(value)
        keep(mechanic)


def all_complete(inspector, area):
    to_area(inspector, SERIAL, area)
    assert "is not signed" not in shown(inspector)
    assert "waits for" not in shown(inspector)


def picture():
    kept = BytesIO()
    Image.new("RGB", (320, 200), "#888").save(kept, "PNG")
    return kept.getvalue()
