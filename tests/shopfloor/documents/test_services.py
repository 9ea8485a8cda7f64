"""Asking for a paper and publishing it: one event each; the paper's file is filled in once."""

import pytest
from django.core.exceptions import PermissionDenied
from django.db import DatabaseError, transaction

from shopfloor.documents import files, services
from shopfloor.documents.kinds import UnknownDocumentKind
from shopfloor.documents.models import Document
from shopfloor.documents.queries import NoSuchDocument
from shopfloor.jobs import services as jobs
from shopfloor.jobs.models import Job
from shopfloor.jobs.performing import perform
from shopfloor.ledger.kinds import sentence_of
from shopfloor.ledger.models import LedgerEvent
from shopfloor.ledger.queries import verify
from tests.shopfloor.documents.conftest import NOON


def events():
    return [event.kind for event in LedgerEvent.objects.filter(kind__startswith="document.").order_by("id")]


def test_asking_writes_a_document_a_job_and_an_event(paper, mechanic):
    assert (paper.job.kind, paper.job.payload, paper.file) == ("document", {"document": str(paper.pk)}, None)
    event = LedgerEvent.objects.get(kind="document.requested")
    assert (event.chain, event.by, event.about_id) == ("shop", mechanic.pk, str(paper.pk))
    assert sentence_of(event) == "The paper 'Bench note' about 7 was asked for."


def test_what_a_person_may_not_see_that_person_cannot_ask_for(outsider):
    with pytest.raises(NoSuchDocument):
        services.request_document(kind="bench-note", subject="7", by=outsider, at=NOON)
    assert (Document.objects.count(), Job.objects.count(), events()) == (0, 0, [])


def test_an_unknown_kind_is_refused(mechanic):
    with pytest.raises(UnknownDocumentKind, match="of kind 'poem'"):
        services.request_document(kind="poem", subject="7", by=mechanic, at=NOON)


def test_a_made_paper_has_its_file_and_one_event_with_its_hash(made):
    assert files.read(made.file).startswith(b"%PDF-")
    assert events() == ["document.requested", "document.rendered"]
    event = LedgerEvent.objects.get(kind="document.rendered")
    assert event.body["content"]["sha256"] == made.file.sha256
    assert made.file.sha256 in sentence_of(event)
    assert event.by is None


def test_the_ledger_agrees_with_the_made_paper(made):
    assert [fault for fault in verify() if "people.person" not in fault.sentence] == []  # persons here skip their service


def test_a_second_message_makes_nothing_more(made):
    perform(made.job_id)
    assert events() == ["document.requested", "document.rendered"]


def test_a_file_is_linked_once_also_by_the_database(made):
    with pytest.raises(DatabaseError), transaction.atomic():
        services.publish_document(job=made.job, sha256="0" * 64, size=1, at=NOON)
    with pytest.raises(DatabaseError), transaction.atomic():
        Document.objects.filter(pk=made.pk).update(subject="8")


def fail(paper, reason="No ink."):
    jobs.fail(job=jobs.claim(job_id=paper.job_id, at=NOON), reason=reason, at=NOON)
    paper.job.refresh_from_db()


def test_the_asker_tries_again_after_a_failure(paper, mechanic):
    fail(paper)
    services.try_again(document=paper, by=mechanic, at=NOON)
    perform(paper.job_id)
    assert events() == ["document.requested", "document.retried", "document.rendered"]
    assert sentence_of(LedgerEvent.objects.get(kind="document.retried")).endswith("after it had failed: No ink.")


def test_nobody_else_tries_again(paper, inspector):
    fail(paper)
    with pytest.raises(PermissionDenied, match="Only the person who asked"):
        services.try_again(document=paper, by=inspector, at=NOON)


def test_only_a_failure_is_tried_again(made, mechanic):
    with pytest.raises(jobs.NothingToRetry):
        services.try_again(document=made, by=mechanic, at=NOON)
    assert events() == ["document.requested", "document.rendered"]


def test_a_refused_address_fails_the_paper_with_its_reason(paper, monkeypatch):
    page = '<!doctype html><html lang=en><title>t</title><body><img alt=x src="file:///etc/passwd"></body></html>'
    monkeypatch.setattr("shopfloor.documents.rendering.page_of", lambda document: page)
    perform(paper.job_id)
    paper.refresh_from_db()
    paper.job.refresh_from_db()
    assert (paper.job.state, paper.job.attempt, paper.file) == ("failed", 1, None)
    assert paper.job.reason == "The paper asks for file:///etc/passwd, and a paper may only use files of its own."
    assert events() == ["document.requested"]
