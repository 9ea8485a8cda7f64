"""The logbook sheet, rendered and read back: it says what was signed, and nothing is missing of what 14 CFR 43.9(a) asks."""

import pytest

from engines.inspection.services import decide, raise_discrepancy, sign_second
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.release.services import mark_serious
from tests.engines.papers.test_papers import printed
from tests.making_releases import ReleasingShop

pytestmark = pytest.mark.django_db
DATA = Data("T2-90 repair scheme", "C", "page 2")


@pytest.fixture
def shop():
    return ReleasingShop()


def texts_of(statement):
    return [text for value in statement.values() for text in (value if isinstance(value, list) else [value])]


def on_paper(text):
    """Without spaces: a PDF breaks lines where the page is narrow."""
    return "".join(text.split())


def test_every_word_that_was_signed_is_on_the_paper_and_the_first_release_is_struck_through(shop):
    visit = shop.to_release(hours_since_new="2100", hours_since_overhaul="1700")
    found = raise_discrepancy(visit=visit, area="case", words="a scored bore", by=shop.mechanic, at=shop.later())
    made = decide(
        discrepancy=found, kind=Kind.CONCESSION, data=DATA, words="half a thousandth", by=shop.inspector, at=shop.later()
    )
    sign_second(disposition=made, by=shop.second, at=shop.later())
    mark_serious(discrepancy=found, by=shop.inspector, at=shop.later())
    first = shop.release(visit, recommendations="Look at the plugs at 50 hours.")
    text = printed("visit-logbook-sheet", visit, shop.mechanic)
    assert "Not released" not in text
    assert "Struck through" not in text
    second = shop.amend(first, description="Overhauled, the case repaired.", data=("T2-90 engine data, revision 2", "Letter 7"))
    text = printed("visit-logbook-sheet", visit, shop.mechanic)
    for release in (first, second):
        for words in (*texts_of(release.content), release.shown_sha256, f"Release {release.number}"):
            assert on_paper(words) in on_paper(text), words
    for words in (
        "repairman INV 4711",
        "Struck through. Release 2 took its place: a document was left out",
        "half a thousandth",
        f"{shop.inspector.name} and {shop.second.name}",
        "Work that the customer refused none",
        "since new 2100, since overhaul 1700",
        "not reported yet",
        "96 hours",
    ):
        assert on_paper(words) in on_paper(text), words


def test_before_the_release_the_sheet_shows_what_stands_so_far(shop):
    text = printed("visit-logbook-sheet", shop.to_release(stop="test"), shop.mechanic)
    for words in ("Not released.", "T2-90 invented manual, revision 3"):
        assert words in text, words
    assert "T2-90 invented route" not in text, "nothing that cites it is signed yet"
