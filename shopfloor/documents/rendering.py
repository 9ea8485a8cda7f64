"""From a document to the bytes of its PDF: the same bytes every time. No transaction is open here."""

import hashlib
import logging

from django.template.loader import render_to_string
from weasyprint import HTML
from weasyprint.urls import FatalURLFetchingError

from shopfloor.documents.fetching import BASE_URL, OwnFilesOnly
from shopfloor.documents.kinds import document_kind
from shopfloor.documents.models import Document
from shopfloor.jobs.kinds import JobRefused


class PaperIncomplete(JobRefused):
    """Something that belongs on the paper could not be put there; a paper with a hole in it is never made."""


class _Complaints(logging.Handler):
    """Collects what WeasyPrint only writes to its log when it leaves something out."""

    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self.sentences: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.sentences.append(record.getMessage())


def page_of(document: Document) -> str:
    kind = document_kind(document.kind)
    return render_to_string(kind.template, {**kind.context(document.subject), "document": document, "kind": kind})


def pdf_of(page: str) -> bytes:
    """Raises PaperIncomplete, naming what is missing."""
    fetcher, complaints = OwnFilesOnly(), _Complaints()
    log = logging.getLogger("weasyprint")
    log.addHandler(complaints)
    try:
        identifier = hashlib.sha256(page.encode()).digest()[:16]
        pdf = HTML(string=page, base_url=BASE_URL, url_fetcher=fetcher).write_pdf(pdf_identifier=identifier, pdf_tags=True)
    except FatalURLFetchingError as error:
        raise PaperIncomplete(str(error.__cause__ or error)) from error
    finally:
        log.removeHandler(complaints)
    if missing := fetcher.refused + complaints.sentences:
        raise PaperIncomplete(missing[0])
    return bytes(pdf)
