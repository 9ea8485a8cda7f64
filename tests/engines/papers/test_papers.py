"""The papers of a visit, rendered and read back: what they say is what the records say."""

import io

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from pypdf import PdfReader

from engines.inspection.models import Discrepancy, Said
from engines.inspection.services import answer, decide, raise_discrepancy, sign_second, withdraw
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind
from engines.parts.services import book_evidence
from engines.traveler.services import reopen
from engines.visits.models import Visit
from engines.visits.services import Identity, tag_replacement
from measurements.readings.models import Reading
from shopfloor.documents.kinds import document_kind
from shopfloor.documents.queries import NoSuchDocument
from shopfloor.documents.rendering import page_of, pdf_of
from shopfloor.documents.services import request_document
from shopfloor.people.models import Role
from tests.making_people import AT, make_customer, make_person
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
PAPERS = ("visit-traveler", "visit-build-record", "visit-parts-trace", "visit-logbook-sheet")
DATA = Data("T2-90 invented manual", "3", "page 4-4")


@pytest.fixture
def shop():
    return Shop()


@pytest.fixture
def visit(shop):
    """One piston conceded, one replaced, one reading corrected, one operation opened again."""
    visit = shop.receive(notes={"missing": [("a breather hose", "")]})
    shop.sign(visit, "receive-cylinders")
    shop.sign(visit, "receive-case")
    reopen(
        operation=shop.operation(visit, "receive-cylinders"), reason="a hose was overlooked", by=shop.inspector, at=shop.later()
    )
    shop.sign(visit, "receive-cylinders")
    shop.tag_all(visit, "cylinder", "piston")
    wrong = shop.read(visit, "skirt-diameter", "cylinder 1", "4.3600")
    shop.read(visit, "skirt-diameter", "cylinder 1", "4.3605", corrects=wrong, correction_reason="misread by a turn")
    shop.read(visit, "skirt-diameter", "cylinder 2", "4.3500")
    first, second = Discrepancy.objects.exclude(reading=wrong).order_by("number")
    made = decide(
        discrepancy=first, kind=Kind.CONCESSION, data=DATA, words="half a thousandth", by=shop.inspector, at=shop.later()
    )
    sign_second(disposition=made, by=shop.second, at=shop.later())
    decide(discrepancy=second, kind=Kind.REPLACE, data=DATA, words="worn out", by=shop.inspector, at=shop.later())
    new = tag_replacement(
        visit=visit,
        line="piston",
        place="cylinder 2",
        identity=Identity(mark="NEW-2"),
        words="new",
        by=shop.mechanic,
        at=shop.later(),
    )
    book_evidence(item=new.item, kind="release certificate", number="C-77", by=shop.manager, at=shop.later())
    return visit


def printed(kind, visit, by):
    document = request_document(kind=kind, subject=str(visit.pk), by=by, at=AT)
    pdf = pdf_of(page_of(document))
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


@pytest.mark.parametrize("kind", PAPERS)
def test_each_paper_names_its_engine_its_data_and_whose_word_governs(shop, visit, kind):
    text = printed(kind, visit, shop.mechanic)
    for words in (
        visit.engine.item.serial,
        visit.customer.name,
        "invented data: not for any real engine",
        "revision 1",
        "always govern",
    ):
        assert words in text, words


def test_the_traveler_shows_every_round_reading_and_signature(shop, visit):
    text = printed("visit-traveler", visit, shop.mechanic)
    for words in (
        "a breather hose",
        "a hose was overlooked",
        "round 1",
        "round 2",
        "4.3600 in",
        "4.3605 in",
        "misread by a turn",
    ):
        assert words in text, words
    for reading in Reading.objects.filter(taken__visit=visit):
        assert reading.verdict in text
    assert text.count(shop.mechanic.name) > 5
    assert "Not signed." in text


def test_the_build_record_shows_what_stands_and_what_was_decided(shop, visit):
    text = printed("visit-build-record", visit, shop.mechanic)
    for words in ("4.3605 in", "half a thousandth", shop.inspector.name, shop.second.name, "worn out", "page 4-4"):
        assert words in text, words
    assert "4.3600 in," not in text.partition("Cylinders")[2], "a corrected reading does not stand"


def test_the_build_record_prints_what_the_customer_was_asked_and_said(shop, visit):
    given = {"area": "cylinders", "line": "piston", "place": "cylinder 1", "words": "a crack"}
    found = raise_discrepancy(visit=visit, **given, by=shop.mechanic, at=shop.later())
    withdraw(request=shop.ask(found), words="a figure was wrong", by=shop.inspector, at=shop.later())
    owner = shop.owner(visit)
    answer(request=shop.ask(found), said=Said.REFUSED, words="too dear", by=owner, at=shop.later())
    shop.ask(found, price="900")
    text = printed("visit-build-record", visit, shop.mechanic)
    for words in ("bore it out", "ring set", "6.5 hours", "1250.00 EUR", "taken back: a figure was wrong", "refused: too dear"):
        assert words in text, words
    assert owner.name in text
    assert "Not answered." in text


def test_the_trace_report_names_the_old_part_the_new_one_and_its_evidence(shop, visit):
    text = printed("visit-parts-trace", visit, shop.mechanic)
    for words in ("piston-cylinder 2", "NEW-2", "release certificate C-77", f"tray-{visit.number}", "T2-201"):
        assert words in text, words


def test_the_logbook_sheet_says_that_nothing_is_released_and_prints_the_concession(shop, visit):
    text = printed("visit-logbook-sheet", visit, shop.mechanic)
    for words in ("Not released.", "half a thousandth", "96 hours"):
        assert words in text, words


def test_a_customer_asks_for_the_record_of_an_own_engine_and_for_nothing_else(shop, visit):
    own = make_person(Role.CUSTOMER, customer=visit.customer)
    stranger = make_person(Role.CUSTOMER, customer=make_customer())
    assert request_document(kind="visit-build-record", subject=str(visit.pk), by=own, at=AT)
    for kind, person in (("visit-traveler", own), ("visit-build-record", stranger)):
        with pytest.raises(NoSuchDocument):
            request_document(kind=kind, subject=str(visit.pk), by=person, at=AT)


@pytest.mark.parametrize("kind", PAPERS)
def test_a_paper_costs_the_same_however_much_was_read(shop, visit, kind):
    costs = []
    for _ in range(2):
        with CaptureQueriesContext(connection) as queries:
            document_kind(kind).context(str(visit.pk))
        costs.append(len(queries))
        for _ in range(4):
            shop.read(visit, "skirt-diameter", "cylinder 2", "4.3500")
            shop.read(visit, "barrel", "cylinder 1", "4.3705", "4.3706", "4.3755", "4.3755")
    assert costs[0] == costs[1]
    assert Visit.objects.count() == 1
