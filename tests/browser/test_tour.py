"""The tour of README.md, walked as a newcomer would on the demo's engines: what it names must be there."""

import re
from pathlib import Path

import pytest

from engines.scenario.passwords import DEMO_PASSWORD
from tests.browser.at_work import press, shown, to_area, to_engine, to_operation

pytestmark = [pytest.mark.browser, pytest.mark.sqlite, pytest.mark.timeout(300)]
README = (Path(__file__).resolve().parents[2] / "README.md").read_text(encoding="utf-8")
WALKED = {"R5-0044", "F6-0951", "F4-0412", "F4-0288", "F4-0233", "F4-0266", "F4-0150"}


def test_the_tour_names_the_engines_that_are_walked_here():
    tour = README.partition("minutes' tour")[2].partition("\n## ")[0]
    assert set(re.findall(r"[FR][0-9]-0[0-9]{3}", tour)) == WALKED


def test_a_newcomer_walks_the_tour(at_a_tablet):
    mechanic = at_a_tablet("mechanic1")
    at_the_bench(mechanic)
    half_assembled(mechanic)
    decisions(at_a_tablet("inspector"), at_a_tablet("manager"))
    a_question_to_the_customer(at_a_tablet("customer"))
    on_the_stand(at_a_tablet("mechanic2"))
    released(at_a_tablet("auditor"))


def at_the_bench(mechanic):
    to_engine(mechanic, "R5-0044")
    mechanic.get_by_role("link", name="Crankshaft and rods", exact=True).click()
    assert "inspection" in shown(mechanic)
    mechanic.get_by_role("link", name="Read: crankshaft and rods").first.click()
    mechanic.get_by_role("link", name="Read it").first.click()
    assert mechanic.get_by_role("button", name="Keep the reading").is_visible()


def half_assembled(mechanic):
    to_operation(mechanic, "F6-0951", "Cylinders", "Hold-down of cylinder 3")
    assert "Try 1 is void" in shown(mechanic)
    mechanic.goto("/")
    mechanic.get_by_role("link", name="Shift handover").click()
    assert "Hold-down of cylinder 3" in shown(mechanic)


def decisions(inspector, manager):
    to_area(inspector, "F4-0412", "Cylinders")
    for words in ("outside limits", "too close to call"):
        assert words in shown(inspector)
    to_engine(manager, "F4-0412")
    manager.locator("ul.found a", has_text="valve guide").first.click()
    manager.get_by_label("Your password again").fill(DEMO_PASSWORD)
    press(manager, "Give the second signature")
    assert "second signature Shop manager" in shown(manager)


def a_question_to_the_customer(customer):
    customer.get_by_role("link", name="F4-0288: rework, 1480.00 USD").click()
    assert "Grinding all of them" in shown(customer)
    customer.get_by_label("Your password again").fill(DEMO_PASSWORD)
    press(customer, "Approve the work")
    assert "approved" in shown(customer)


def on_the_stand(mechanic):
    to_engine(mechanic, "F4-0233")
    mechanic.get_by_role("link", name="To the stand").click()
    mechanic.get_by_role("link", name="Run 1: going on").click()
    assert "Begin a step" in shown(mechanic)
    to_engine(mechanic, "F4-0266")
    assert "Run 1 on the stand failed." in shown(mechanic)
    assert "repair" in mechanic.get_by_role("region", name="Cylinders").inner_text()


def released(auditor):
    auditor.goto("/board/")
    auditor.get_by_role("link", name="Engines that were released").click()
    auditor.get_by_role("row").filter(has_text="F4-0150").get_by_role("link").click()
    for words in ("overhauled", "repairman (invented)", "SW-R-01", "Oil and filter to be changed"):
        assert words in shown(auditor)
