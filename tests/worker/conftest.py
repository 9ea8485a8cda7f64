"""A shop with a broker and workers of its own, on the test database."""

import os

import pytest
from django.utils import timezone

from shopfloor.documents.files import read
from shopfloor.documents.kinds import register_document_kind
from shopfloor.documents.models import Document
from shopfloor.documents.services import request_document
from shopfloor.jobs import queue
from shopfloor.jobs.models import WorkerPulse
from shopfloor.ledger.models import LedgerEvent
from shopfloor.people.models import Person
from tests.slow_jobs.apps import SLOW_PAPER
from tests.worker.brokers import BROKERS
from tests.worker.patience import wait_until
from tests.worker.workers import Worker


class Shop:
    def __init__(self, home, broker):
        self.home, self.broker, self.workers = home, broker, []
        self.person = Person.objects.create(username="mechanic1", name="First mechanic", must_change_password=False)

    def hire(self, name="first"):
        worker = Worker(name, self.home, self.broker.url)
        self.workers.append(worker)
        return wait_until(lambda: worker.is_ready() and worker, f"worker {name} is ready")

    def ask(self, subject):
        return request_document(kind=SLOW_PAPER.name, subject=subject, by=self.person, at=timezone.now())

    def begun(self, subject):
        return list(self.home.glob(f"{subject}.begun-*"))

    def wait_begun(self, subject, times=1):
        wait_until(lambda: len(self.begun(subject)) >= times, f"{subject} is begun {times} times")

    def go(self, *subjects):
        for subject in subjects:
            (self.home / f"{subject}.go").touch()

    def ended_once(self, paper):
        """Wait for the end of the paper; then there is one file, one event, and nothing runs any more."""
        wait_until(lambda: Document.objects.filter(pk=paper.pk, job__state="done").exists(), f"{paper.subject} is done")
        paper = Document.objects.select_related("job", "file").get(pk=paper.pk)
        assert read(paper.file).startswith(b"%PDF-")
        events = LedgerEvent.objects.filter(about_id=str(paper.pk)).order_by("id")
        assert [event.kind for event in events] == ["document.requested", "document.rendered"]
        assert events.last().body["content"]["sha256"] == paper.file.sha256
        assert Document.objects.filter(subject=paper.subject).count() == 1
        return paper.job

    def pulses(self):
        return WorkerPulse.objects.count()


@pytest.fixture(scope="session")
def broker(tmp_path_factory):
    broker = BROKERS[os.environ.get("WORKER_TEST_BROKER", "folder")](tmp_path_factory.mktemp("broker"))
    broker.start()
    yield broker
    broker.stop()


@pytest.fixture
def shop(transactional_db, own_folders, broker, tmp_path, monkeypatch):
    register_document_kind(SLOW_PAPER)
    monkeypatch.setattr(queue, "app", queue.make_app(broker.url))
    shop = Shop(tmp_path, broker)
    yield shop
    for worker in shop.workers:
        worker.close()
    queue.app.close()
