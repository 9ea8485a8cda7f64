"""The PDF itself: caution and page number on every page, title, language, our fonts, the same bytes every time."""

from io import BytesIO

import pytest
from django.template import engines
from pypdf import PdfReader

from shopfloor.documents.rendering import page_of, pdf_of


def read(pdf: bytes) -> PdfReader:
    return PdfReader(BytesIO(pdf))


@pytest.fixture
def long_page(paper):
    template = engines["django"].from_string(
        '{% extends "documents/paper.html" %}{% block body %}{% for n in lines %}<p>line {{ n }}</p>{% endfor %}{% endblock %}'
    )
    kind = {"title": "Bench note"}
    return template.render({"document": paper, "kind": kind, "lines": range(120)})


def test_the_caution_and_the_page_number_stand_on_every_page(long_page):
    pages = [" ".join(page.extract_text().split()) for page in read(pdf_of(long_page)).pages]
    assert len(pages) > 2
    for number, text in enumerate(pages, 1):
        assert "Not a substitute: the manufacturer's current approved data" in text
        assert "appropriately certificated person always govern." in text
        assert f"page {number} of {len(pages)}" in text


def test_title_language_and_moment_are_the_documents_own(paper):
    pdf = read(pdf_of(page_of(paper)))
    assert pdf.metadata.title == "Bench note: bench 7"
    assert pdf.metadata.creation_date == paper.requested_at
    assert pdf.trailer["/Root"]["/Lang"] == "en"


def test_the_same_document_is_the_same_bytes(paper):
    assert pdf_of(page_of(paper)) == pdf_of(page_of(paper))


def test_only_our_own_fonts_are_used(long_page):
    """The names are those that paper.css gives to our faces; a face of the machine would come under its own name."""
    fonts = {
        str(font.get_object()["/BaseFont"]).split("+")[-1].strip("/")
        for page in read(pdf_of(long_page)).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert fonts == {"Sheet", "Stamp"}
