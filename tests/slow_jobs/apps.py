import os
import time
from pathlib import Path

from django.apps import AppConfig
from django.db.models import Q

from shopfloor.documents.kinds import DocumentKind, Subject, register_document_kind

LONGEST_S = 60


def wait_for_the_sign(subject: str) -> dict[str, str]:
    """Leaves `<subject>.begun-<process>` behind and waits for `<subject>.go`."""
    folder = Path(os.environ["SLOW_JOBS_FOLDER"])
    (folder / f"{subject}.begun-{os.getpid()}").touch()
    until = time.monotonic() + LONGEST_S
    while not (folder / f"{subject}.go").exists():
        if time.monotonic() > until:
            raise TimeoutError(subject)
        time.sleep(0.05)
    return {}


SLOW_PAPER = DocumentKind(
    name="slow-paper",
    title="Slow paper",
    template="documents/paper.html",
    context=wait_for_the_sign,
    describe=Subject,
    visible_to=lambda person: Q(),
    filename=lambda subject: f"{subject}.pdf",
)


class SlowJobsConfig(AppConfig):
    name = "tests.slow_jobs"

    def ready(self) -> None:
        register_document_kind(SLOW_PAPER)
