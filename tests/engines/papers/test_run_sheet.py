"""The run sheet, rendered and read back."""

import io

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from pypdf import PdfReader

from engines.papers.run_sheet import context
from engines.testbench import services
from shopfloor.documents.rendering import page_of, pdf_of
from shopfloor.documents.services import request_document
from tests.making_runs import Stand

pytestmark = pytest.mark.django_db


def printed(stand):
    document = request_document(kind="visit-run-sheet", subject=str(stand.visit.pk), by=stand.by, at=stand.now)
    pdf = pdf_of(page_of(document))
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


def test_it_says_what_the_records_say_and_prints_the_cautions():
    stand = Stand()
    services.break_off(run=stand.run, reason="a thunderstorm", engine_at_fault=False, by=stand.by, at=stand.now)
    stand.begin()
    text = printed(stand.passed())
    for words in (
        "Run 1: broken off",
        "a thunderstorm",
        "Run 2: passed",
        stand.by.name,
        "A running engine and its propeller kill",
        "Nobody stands in line with the test club.",
        "Held for 10 minutes without a break; at least 10 are asked for",
        "88.4 hp",
        "classic 460/519",
        "The engine dies when both switches are off: yes",
        "Oil consumption",
        "always govern",
    ):
        assert words in text, words


def test_an_engine_that_was_not_run_says_so():
    assert "This engine was not run on the stand in this visit." in printed(Stand(begun=False))


def test_it_costs_the_same_however_much_was_read():
    stand = Stand()
    stand.begin_step("pre-oil")
    costs = []
    for _ in range(2):
        stand.read("pre-oil", oil_pressure="30")
        with CaptureQueriesContext(connection) as queries:
            context(str(stand.visit.pk))
        costs.append(len(queries))
        for _ in range(5):
            stand.read("pre-oil", oil_pressure="31", oil_temperature="80")
    assert costs[0] == costs[1]
