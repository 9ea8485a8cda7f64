"""The first errand: sign in, give a published table and readings, see every verdict, take the PDF home and read it."""

import pytest
from pypdf import PdfReader

from measurements.metrology.verdicts import Verdict
from tests.making_sheets import LIMITS, READINGS

# US Army TM 5-6115-545-34, table 1-2: a pin of 1.5011 to 1.5013 in, a bushing bore of 1.5027 to 1.5032 in, between them
# 0.0014 to 0.0021 in, in service 0.0025 in at most. Rod 1: 1.5030 and 1.5031 less 1.5012 in leave 0.0018 and 0.0019 in, with
# U = 0.00028 in: nearer than U to 0.0021, farther than U from 0.0025. Rod 2: 1.5040 in less 38.131 mm leave 0.0028 in.
VERDICTS = {
    ("bushing", "rod 1"): "serviceable",
    ("pin", "rod 1"): "serviceable",
    ("bushing", "rod 2"): "not judged",
    ("pin", "rod 2"): "within new limits",
    ("clearance", "rod 1"): "serviceable",
    ("clearance", "rod 2"): "outside limits",
}
pytestmark = [pytest.mark.browser, pytest.mark.sqlite, pytest.mark.timeout(300)]


def test_a_published_table_is_judged_shown_and_printed(signed_in, tmp_path):
    page = signed_in("mechanic1")
    page.get_by_role("link", name="Sheets", exact=True).first.click()
    page.goto("/sheets/judge/")
    page.get_by_label("Title").fill("Piston pins of a field engine")
    for field, text in (("Limit table", LIMITS), ("Readings", READINGS)):
        file = tmp_path / f"{field.lower().replace(' ', '-')}.csv"
        file.write_text(text)
        page.get_by_label(field).set_input_files(file)
    page.get_by_role("button", name="Judge").click()
    page.wait_for_url("**/sheets/*-*/")
    assert verdicts_of(page) == VERDICTS
    assert page.locator("table.lines svg").count() >= len(VERDICTS), "each line has its strip and its mark"

    page.get_by_role("button", name="Make the PDF").click()
    link = page.get_by_role("link", name="Download")
    link.wait_for(timeout=30_000)
    with page.expect_download() as coming:
        link.click()
    coming.value.save_as(tmp_path / "paper.pdf")
    printed = "\n".join(sheet.extract_text() for sheet in PdfReader(tmp_path / "paper.pdf").pages)
    assert "Piston pins of a field engine" in printed
    assert all(verdict in " ".join(printed.split()) for verdict in VERDICTS.values())
    assert "0.0018" in printed
    assert "0.0019" in printed


def verdicts_of(page):
    """Row, position and verdict of each line, as read on the screen."""
    found = {}
    for line in page.locator("table.lines tbody tr").all():
        cells = line.locator("th, td").all_inner_texts()
        verdict = next(word for word in map(str, Verdict) if word in cells[4].lower())
        found[cells[0].split()[0].lower(), cells[1]] = verdict
    return found


def test_a_wrong_password_is_told_and_nobody_is_signed_in(page):
    page.goto("/people/sign-in/")
    page.get_by_label("name").first.fill("mechanic1")
    page.get_by_label("password").fill("not the password")
    page.get_by_role("button", name="Sign in").click()
    assert "do not match an active account" in page.get_by_role("main").inner_text()
